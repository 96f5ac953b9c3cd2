/** What a technician says of a visit that is done, in one typed or dictated line, in any order. */
import type { Locale, SaidClosing } from '../../dialogues/event.ts';
import { LOCALES } from '../../dialogues/event.ts';
import type { SuspectId } from '../../knowledge/ids.ts';
import { SUSPECT_IDS } from '../../knowledge/ids.ts';
import { translate } from '../texts.ts';
import { foldedText } from './clean.ts';
import { readingsIn } from './readings.ts';
import { readingTokens, spokenNumbers } from './reading-tokens.ts';
import { isWord, wordsOf } from './words-of.ts';
import { CAUSE_NAMES, CLEAN, CLOSED, NEW_PART_BEFORE, NOT_REPAIRED, REPAIRED } from './words/closing.ts';

/** Words that tell no cause from another. */
const SMALL = new Set(
  `a an the of at in on that is was it to too for from has lost set and with by not pump pool cleaner
  un una unos unas el la los las de del que se lo al en por para su y con no sella mal mala bomba limpiafondos`.split(
    /\s+/u,
  ),
);

const SHARE_NEEDED = 0.5;
/** Causes that fit nearly as well as the best are offered with it. */
const NEARLY = 0.85;

function telling(text: string): string[] {
  return wordsOf(foldedText(text)).filter((word) => isWord(word) && !SMALL.has(word));
}

interface Name {
  cause: SuspectId;
  words: readonly string[];
}

const NAMES: readonly Name[] = SUSPECT_IDS.flatMap((cause) => {
  const names = LOCALES.map((locale) => translate(locale, `faults:${cause}.name`));
  return [...names, ...(CAUSE_NAMES[cause] ?? [])].map((name) => ({ cause, words: telling(name) }));
});

/** How much a word tells: the fewer causes have it, the more. */
const WEIGHT: ReadonlyMap<string, number> = (() => {
  const causes = new Map<string, Set<SuspectId>>();
  for (const { cause, words } of NAMES)
    for (const word of words) causes.set(word, (causes.get(word) ?? new Set()).add(cause));
  return new Map([...causes].map(([word, those]) => [word, Math.log(1 + SUSPECT_IDS.length / those.size)]));
})();

function weightOf(words: Iterable<string>): number {
  let sum = 0;
  for (const word of new Set(words)) sum += WEIGHT.get(word) ?? 0;
  return sum;
}

/** How well words fit the name of a cause: the share of either that is in the other. */
function fit(said: readonly string[], { words }: Name): number {
  const shared = weightOf(words.filter((word) => said.includes(word)));
  const known = weightOf(said);
  if (shared === 0 || known === 0) return 0;
  return (2 * shared) / (known + weightOf(words));
}

/** The causes that a piece of the line fits, the best first; none where none is clearly meant. */
function causesIn(piece: string): { causes: SuspectId[]; score: number } {
  const said = telling(piece);
  const best = new Map<SuspectId, number>();
  for (const name of NAMES) best.set(name.cause, Math.max(best.get(name.cause) ?? 0, fit(said, name)));
  const ranked = [...best].sort(([, a], [, b]) => b - a);
  const score = ranked[0]?.[1] ?? 0;
  if (score < SHARE_NEEDED) return { causes: [], score: 0 };
  return { causes: ranked.filter(([, one]) => one >= NEARLY * score).map(([cause]) => cause), score };
}

/** Commas and stops; "and" between words; before a word for what is new: in front of its noun, or behind it. */
const CUTS =
  /[,;:]|\.(?!\d)|\s(?:and|y)\s(?=\p{L})|(?=\b(?:new|replaced|cambie|reemplace|puse)\b)|(?<!\b(?:una?|la|el)\s)(?=\b\p{L}+\snuev[oa]s?\b)/u;

/** The line cut at its commas and stops, and before and after what is new and what is counted. */
function pieces(folded: string): string[] {
  return folded
    .replace(/(\d),(\d)/gu, '$1.$2')
    .split(CUTS)
    .map((piece) => piece.trim())
    .filter((piece) => piece !== '');
}

interface Counted {
  minutes?: number;
  /** The line without what was counted. */
  rest: string;
}

const MINUTES = /^(?:min|mins|minute|minutes|minuto|minutos)$/u;
const HOURS = /^(?:h|hr|hrs|hour|hours|hora|horas)$/u;

/** The minutes of the work; hours are told as well. */
function minutesIn(folded: string, locale: Locale): Counted {
  const tokens = readingTokens(folded);
  for (const { value, start, end } of spokenNumbers(tokens, locale)) {
    const unitAt = [end - 1, end].find(
      (at) => MINUTES.test(tokens[at] ?? '') || HOURS.test(tokens[at] ?? ''),
    );
    if (unitAt === undefined || value < 0) continue;
    const minutes = Math.round(HOURS.test(tokens[unitAt] ?? '') ? value * 60 : value);
    const rest = [...tokens.slice(0, start), ',', ...tokens.slice(unitAt + 1)].join(' ');
    return { minutes, rest };
  }
  return { rest: folded };
}

function bareMinutes(folded: string): number | undefined {
  const found = /^\s*(\d{1,4})\s*$/u.exec(folded);
  return found === null ? undefined : Number(found[1]);
}

/** What a piece says, by the first kind it fits. */
type Told = { part: string } | { repaired: boolean } | { causes: SuspectId[]; score: number } | undefined;

const NUMBERED = /\d|\b(?:psi|bar|vacuum|vacio|presion|pressure)\b/u;

/** A piece that tells what it was not: "not the O-ring", "the O-ring was fine". */
const DENIED =
  /^(?:it (?:was|is) )?(?:not|no|never|ni|tampoco)\b|\b(?:was|is|were|are|looked|looks|estaba|estaban|esta|estan) (?:all )?(?:fine|ok|okay|good|sound|normal|bien|san[oa]s?)\b/u;

function told(piece: string, locale: Locale): Told {
  if (NOT_REPAIRED.test(piece)) return { repaired: false };
  if (DENIED.test(piece)) return undefined;
  if (readingsIn(piece, undefined, locale).length > 0) return undefined;
  if (NEW_PART_BEFORE.test(piece)) return { part: piece };
  const found = causesIn(piece);
  if (found.causes.length > 0) return found;
  return REPAIRED.test(piece) && !NUMBERED.test(piece) ? { repaired: true } : undefined;
}

function isPart(one: Told): one is { part: string } {
  return one !== undefined && 'part' in one;
}

/** Everything that a line says of a visit, as far as it says anything. Never throws. */
export function closingIn(text: string, locale: Locale): SaidClosing {
  const folded = foldedText(text).replace(CLOSED, ' ').trim();
  const { minutes = bareMinutes(folded), rest } = minutesIn(folded, locale);
  const all = pieces(rest).map((piece) => told(piece, locale));
  const parts = all.filter(isPart).map(({ part }) => part);
  const fitting = all.flatMap((one) => (one !== undefined && 'causes' in one ? [one] : []));
  const [best] = [...fitting].sort((a, b) => b.score - a.score);
  const repairs = all.flatMap((one) => (one !== undefined && 'repaired' in one ? [one.repaired] : []));
  const isRepaired = repairs.includes(false)
    ? false
    : repairs.length > 0 || parts.length > 0
      ? true
      : undefined;
  const readings = bareMinutes(folded) === undefined ? readingsIn(rest, undefined, locale) : [];
  return {
    causes: best?.causes ?? [],
    ...(isRepaired === undefined ? {} : { isRepaired }),
    ...(parts.length > 0 ? { parts: parts.join(', ') } : {}),
    ...(minutes === undefined ? {} : { minutes }),
    readings,
    clean: readings.length > 0 && CLEAN.test(folded),
  };
}

/** Whether anything was understood. */
export function saysSomething({ causes, isRepaired, minutes, readings }: SaidClosing): boolean {
  return causes.length > 0 || isRepaired !== undefined || minutes !== undefined || readings.length > 0;
}

/** A line that closes a visit of its own accord; undefined where it may be an answer to something else. */
export function closingLine(text: string, locale: Locale): SaidClosing | undefined {
  const opening = CLOSED.exec(foldedText(text));
  if (opening === null) return undefined;
  const said = closingIn(text, locale);
  const isSure = said.minutes !== undefined || (opening.groups?.mark === ':' && saysSomething(said));
  return isSure ? said : undefined;
}
