import type { Locale, SpokenReading } from '../../dialogues/event.ts';
import { fractionAfter, numberAt } from './number-words.ts';
import { unitAt, type UnitFound } from './spoken-units.ts';
import { isWord, wordsOf } from './words-of.ts';

/** A number in a message with the unit said to it. Positions are those of the tokens. */
export interface SpokenNumber {
  value: number;
  start: number;
  /** Position after the number and its unit. */
  end: number;
  unit?: SpokenReading['unit'];
  isLength: boolean;
  unitSaid: string;
}

/** Is the token at this place one of these numbers, or of their units? */
export function isOfNumber(numbers: readonly SpokenNumber[], at: number): boolean {
  return numbers.some(({ start, end }) => at >= start && at < end);
}

/** Splits "22psi", sets ranges written with a dash apart, and reads the inch sign. */
export function readingTokens(folded: string): string[] {
  const opened = folded
    .replace(/(\d)\s*"/gu, '$1 inches ')
    .replace(/(\d)\s*-\s*(?=[\d.])/gu, '$1 to ')
    .replace(/(\d)\s*\+\s*/gu, '$1 ')
    .replace(/(^|[^\p{L}\d.,])-\s+(?=\d)/gu, '$1 ')
    .replace(/(\d)ish\b/gu, '$1')
    .replace(/kg\s*\/\s*cm\s*2?/gu, 'kg/cm')
    .replace(/(\d)\s*m\s?[3³]/gu, '$1 m3');
  return wordsOf(opened).flatMap((token) => {
    if (!isWord(token) || token === 'kg/cm') return [token];
    const parts = /^(-?\d+(?:[.,]\d+)?)(\p{L}[\p{L}/]*|%)$/u.exec(token);
    if (parts === null) return [token];
    return [parts[1] ?? '', parts[2] ?? ''];
  });
}

const AFTER_PRONOUN = /^(of|more|is|was|with|that|moment|day|thing|guy|way|side|line|time|on|for|at|in)$/u;
const BEFORE_PRONOUN =
  /^(have|has|had|that|this|the|no|not|any|another|own|which|each|only|every|see|got|other|last|first|second|third|skip|get|need|there|want|find|locate|spot|use|tengo|hay|tiene|ese|este|cada|ningun|alguno|new|good|bad|got|es)$/u;

/** Is "one" or "uno" here a pronoun ("I don't have one") and not a count? */
function isPronoun(tokens: readonly string[], at: number, hasUnit: boolean): boolean {
  const said = tokens[at] ?? '';
  if (['a', 'un', 'una'].includes(said)) return !hasUnit;
  if (hasUnit) return false;
  const before = tokens[at - 1] ?? '';
  const twoBefore = tokens[at - 2] ?? '';
  const isThere = before === 'is' && ['there', 'not'].includes(twoBefore);
  return isThere || BEFORE_PRONOUN.test(before) || AFTER_PRONOUN.test(tokens[at + 1] ?? '');
}

const HALVES = new Set(['half', 'medio', 'media']);
const SMALL_WORDS = new Set(['a', 'an', 'of', 'un', 'una', 'de']);

/** "half a bar", "medio bar", "bar y medio", "libra y media". */
function halfNumber(tokens: readonly string[], at: number): SpokenNumber | undefined {
  if (HALVES.has(tokens[at] ?? '')) {
    const unitStart = SMALL_WORDS.has(tokens[at + 1] ?? '') ? at + 2 : at + 1;
    const unit = unitAt(tokens, unitStart);
    return unit?.unit === undefined ? undefined : spoken(0.5, at, unitStart, unit);
  }
  const unit = unitAt(tokens, at);
  if (unit?.unit === undefined) return undefined;
  const after = at + unit.length;
  const isHalfMore = tokens[after] === 'y' && HALVES.has(tokens[after + 1] ?? '');
  if (!isHalfMore) return undefined;
  return { ...spoken(1.5, at, at, unit), end: after + 2 };
}

function spoken(value: number, start: number, unitStart: number, unit: UnitFound | undefined): SpokenNumber {
  const scaled =
    unit === undefined || unit.perSaid === 1 ? value : Number((value * unit.perSaid).toPrecision(6));
  return {
    value: scaled,
    start,
    end: unitStart + (unit?.length ?? 0),
    ...(unit?.unit === undefined ? {} : { unit: unit.unit }),
    isLength: unit?.isLength ?? false,
    unitSaid: unit?.said ?? '',
  };
}

const BETWEEN_UNIT_AND_NUMBER = new Set([
  'is',
  'at',
  'of',
  'reads',
  'says',
  ',',
  'es',
  'en',
  'de',
  'esta',
  'are',
  'shows',
]);

/** "psi 23", "PSI: 23": the unit before its number, where it belongs to no earlier number. */
function unitBefore(tokens: readonly string[], at: number, free: number): UnitFound | undefined {
  for (let start = at - 1; start >= Math.max(free, at - 4); start -= 1) {
    const unit = unitAt(tokens, start);
    if (unit?.unit !== undefined && !unit.isLength && unit.unit !== 'turns/min') return unit;
    if (!BETWEEN_UNIT_AND_NUMBER.has(tokens[start] ?? '')) return undefined;
  }
  return undefined;
}

function numberFrom(
  tokens: readonly string[],
  at: number,
  free: number,
  locale: Locale,
): SpokenNumber | undefined {
  const found = numberAt(tokens, at, locale);
  if (found === undefined) return halfNumber(tokens, at);
  const unitStart = at + found.length;
  const after = unitAt(tokens, unitStart);
  if (found.couldBePronoun && isPronoun(tokens, unitStart - 1, after !== undefined)) return undefined;
  if (after !== undefined) {
    // "22 libras y media", "one bar and a half".
    const more = after.unit === undefined ? undefined : fractionAfter(tokens, unitStart + after.length);
    const number = spoken(found.value + (more?.value ?? 0), at, unitStart, after);
    return more === undefined ? number : { ...number, end: more.next };
  }
  const before = unitBefore(tokens, at, free);
  return { ...spoken(found.value, at, unitStart, before), end: unitStart };
}

/** The numbers of a message in their order, each with its unit; those that count other things are marked so. */
export function spokenNumbers(tokens: readonly string[], locale: Locale): SpokenNumber[] {
  const numbers: SpokenNumber[] = [];
  let at = 0;
  let free = 0;
  while (at < tokens.length) {
    const number = numberFrom(tokens, at, free, locale);
    if (number === undefined) at += 1;
    else {
      numbers.push(number);
      at = Math.max(number.end, at + 1);
      free = at;
    }
  }
  return numbers;
}

/** Does the number count something that is no reading: minutes, gallons, people? */
export function countsOtherThings(number: SpokenNumber): boolean {
  return number.unit === undefined && number.unitSaid !== '';
}
