/** The spoken wording of messages: no buttons, numbers and units as people say them, cautions first and slowly. */
import type { Locale } from '../dialogues/event.ts';
import type { SpokenPart } from './speaker.ts';

/** Words of a language by their key and facts. */
export type Translate = (locale: Locale, key: string, facts?: Record<string, string | number>) => string;

/** A message as far as it is said. */
export interface Sayable {
  kind: string;
  text: string;
  outcome?: string;
  options?: readonly { id: string }[];
}

/** Longest text that is said of a message, characters; the rest is on the screen. About forty seconds. */
const LONGEST = 600;

/** Units as they are written, with the key of how they are said. Those with more letters come first. */
const WRITTEN_UNITS: readonly (readonly [RegExp, string])[] = [
  [/(\d)\s*psi\b/giu, 'psi'],
  [/(\d)\s*inHg\b/giu, 'inhg'],
  [/(\d)\s*kPa\b/giu, 'kpa'],
  [/(\d)\s*bar\b/giu, 'bar'],
  [/(\d)\s*(?:gpm|gal\/min)\b/giu, 'gpm'],
  [/(\d)\s*m(?:3|³)\/h\b/giu, 'm3h'],
  [/(\d)\s*(?:l|L)\/min\b/gu, 'lmin'],
  [/(\d)\s*ft\b/giu, 'ft'],
  [/(\d)\s*m\b/gu, 'm'],
  [/(\d)\s*min\b/giu, 'min'],
  [/(\d)\s*%/gu, 'percent'],
  [/(\d)\s*ppm\b/giu, 'ppm'],
];

function withSpokenUnits(text: string, locale: Locale, translate: Translate): string {
  return WRITTEN_UNITS.reduce(
    (said, [written, key]) =>
      said.replace(written, (_, digit: string) => `${digit} ${translate(locale, `voice:unit.${key}`)}`),
    text,
  );
}

/** Without signs that are for the eye: commands' slashes, brackets, quotation marks, pictures, dashes of lists. */
function forTheEar(text: string, locale: Locale, translate: Translate): string {
  const to = translate(locale, 'voice:to');
  return text
    .replace(/https?:\/\/\S+/gu, translate(locale, 'voice:link'))
    .replace(/(\d)\s*[–-]\s*(\d)/gu, `$1 ${to} $2`)
    .replace(/(^|\s)\/(\p{L})/gu, '$1$2')
    .replace(/[“”"«»*_`|•()[\]{}]+/gu, ' ')
    .replace(/[\p{Extended_Pictographic}\u{FE0F}]+/gu, ' ')
    .replace(/^[\s–—-]+/gmu, '')
    .replace(/\s*→\s*/gu, ', ');
}

/** Each line becomes a sentence, so that the voice pauses. */
function asSentences(text: string): string {
  const lines = text.split('\n').map((line) => line.replace(/\s+/gu, ' ').trim());
  const said = lines.filter((line) => line !== '');
  return said.map((line) => (/[.!?:;,…]$/u.test(line) ? line : `${line}.`)).join(' ');
}

/** At most so much, ended at the end of a sentence, with a word that there is more. */
function shortened(text: string, locale: Locale, translate: Translate): string {
  if (text.length <= LONGEST) return text;
  const cut = text.slice(0, LONGEST);
  const end = Math.max(cut.lastIndexOf('. '), cut.lastIndexOf('? '), cut.lastIndexOf('! '));
  const whole = end > LONGEST / 3 ? cut.slice(0, end + 1) : cut.slice(0, cut.lastIndexOf(' '));
  return `${whole} ${translate(locale, 'voice:more')}`;
}

const protects = ({ kind, outcome }: Sayable): boolean => kind === 'caution' || outcome === 'emergency';

function opening(message: Sayable, locale: Locale, translate: Translate): string {
  if (message.outcome === 'emergency') return translate(locale, 'voice:danger');
  return message.kind === 'caution' ? translate(locale, 'voice:caution') : '';
}

/** How to go on where no question in the text says so. */
function closing({ kind, options = [] }: Sayable, locale: Locale, translate: Translate): string {
  if (kind === 'caution' && options.length > 0) return translate(locale, 'voice:say-when-done');
  return kind === 'repair' && options.length > 0 ? translate(locale, 'voice:say-how-it-went') : '';
}

/** The spoken wording of one message; empty where there is nothing to say of it, as of a picture. */
export function spokenWords(message: Sayable, locale: Locale, translate: Translate): SpokenPart[] {
  if (message.kind === 'picture') return [];
  const plain = asSentences(forTheEar(withSpokenUnits(message.text, locale, translate), locale, translate));
  if (plain === '') return [];
  // What protects a person is said whole.
  const body = protects(message) ? plain : shortened(plain, locale, translate);
  const all = [opening(message, locale, translate), body, closing(message, locale, translate)];
  const text = all.filter((piece) => piece !== '').join(' ');
  return [protects(message) ? { text, slow: true } : { text }];
}

/** The spoken wording of a turn's messages: what protects a person comes first, the rest in its order. */
export function spokenTurn(messages: readonly Sayable[], locale: Locale, translate: Translate): SpokenPart[] {
  const ordered = [...messages.filter(protects), ...messages.filter((message) => !protects(message))];
  return ordered.flatMap((message) => spokenWords(message, locale, translate));
}
