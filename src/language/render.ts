/** Turning what the dialogues say into words of one language. */
import type { Locale } from '../dialogues/event.ts';
import type { Message, MessageOption } from '../dialogues/message.ts';
import type {
  Amount,
  Cell,
  Digits,
  Fact,
  FileOut,
  Measure,
  Option,
  Picture,
  Say,
  Text,
} from '../dialogues/say.ts';
import { shown } from '../engine/gauge.ts';
import { translate } from './texts.ts';

const numbers = new Map<Locale, Intl.NumberFormat>();
const times = new Map<Locale, Intl.DateTimeFormat>();

function formatted<T>(cache: Map<Locale, T>, locale: Locale, make: () => T): T {
  const known = cache.get(locale);
  if (known !== undefined) return known;
  const made = make();
  cache.set(locale, made);
  return made;
}

function amountWords({ quantity, value }: Amount, locale: Locale): string {
  const { value: number, unit } = shown(quantity, value);
  const format = formatted(
    numbers,
    locale,
    () => new Intl.NumberFormat(locale, { maximumFractionDigits: 1 }),
  );
  return `${format.format(number)} ${translate(locale, `units:${unit}`)}`;
}

function measureWords({ measure, unit, digits }: Measure, locale: Locale): string {
  const number = measure.toLocaleString(locale, { maximumFractionDigits: digits });
  return `${number} ${translate(locale, `units:${unit}`)}`;
}

/** "One two point five" for 12.5. */
function digitWords({ apart }: Digits, locale: Locale): string {
  const written = String(Math.round(Math.abs(apart) * 100) / 100);
  const said = Array.from(written, (sign) =>
    translate(locale, sign === '.' ? 'voice:point' : `voice:digit.${sign}`),
  );
  return [...(apart < 0 ? [translate(locale, 'voice:minus')] : []), ...said].join(' ');
}

function momentWords(at: number, locale: Locale): string {
  const make = (): Intl.DateTimeFormat =>
    new Intl.DateTimeFormat(locale, { dateStyle: 'medium', timeStyle: 'short' });
  return formatted(times, locale, make).format(new Date(at));
}

function isList(fact: Fact): fact is readonly Text[] {
  return Array.isArray(fact);
}

function factWords(fact: Fact, locale: Locale): string | number {
  if (typeof fact === 'string' || typeof fact === 'number') return fact;
  if (isList(fact)) return fact.map((item) => words(item, locale)).join(', ');
  if ('key' in fact) return words(fact, locale);
  if ('apart' in fact) return digitWords(fact, locale);
  if ('measure' in fact) return measureWords(fact, locale);
  if ('day' in fact) return new Date(fact.day).toLocaleDateString(locale, { dateStyle: 'medium' });
  return 'at' in fact ? momentWords(fact.at, locale) : amountWords(fact, locale);
}

/** A text in words. */
export function words({ key, facts = {} }: Text, locale: Locale): string {
  const filled = Object.entries(facts).map(([name, fact]) => [name, factWords(fact, locale)] as const);
  return translate(locale, key, Object.fromEntries(filled));
}

function optionWords({ id, label, folded }: Option, locale: Locale): MessageOption {
  const option = { id, label: words(label, locale) };
  return folded === true ? { ...option, folded } : option;
}

function pictureWords(picture: Picture, locale: Locale): Picture<string> {
  if (picture.draw === 'link-code') return picture;
  const said = (text: Text): string => words(text, locale);
  return {
    draw: 'figures',
    title: said(picture.title),
    subtitle: said(picture.subtitle),
    numbers: picture.numbers.map(({ label, value }) => ({ label: said(label), value: said(value) })),
    charts: picture.charts.map(({ title, bars }) => ({
      title: said(title),
      bars: bars.map(({ label, value, note }) => {
        const bar = { label: said(label), value };
        return note === undefined ? bar : { ...bar, note: said(note) };
      }),
    })),
  };
}

function fileWords(file: FileOut, locale: Locale): FileOut<string> {
  if (file.holds === 'pools') return file;
  const cell = (value: Cell<Text>): string | number =>
    typeof value === 'object' ? words(value, locale) : value;
  return { ...file, lines: file.lines.map((line) => line.map(cell)) };
}

/** A message in words, a line a paragraph. */
export function rendered(say: Say, usual: Locale): Message {
  const { text, options, belief, picture, file, locale = usual, ...rest } = say;
  const lines = text.map((paragraph) => words(paragraph, locale));
  return {
    ...rest,
    text: lines.join('\n'),
    ...(picture === undefined ? {} : { picture: pictureWords(picture, locale) }),
    ...(file === undefined ? {} : { file: fileWords(file, locale) }),
    ...(options === undefined ? {} : { options: options.map((option) => optionWords(option, locale)) }),
    ...(belief === undefined
      ? {}
      : { belief: belief.map(({ fault, p }) => ({ fault, p: Math.round(p * 1e4) / 1e4 })) }),
  };
}
