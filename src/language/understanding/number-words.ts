import type { Locale } from '../../dialogues/event.ts';
import { TEENS_EN, TENS_EN, UNITS_EN } from './words/en/numbers.ts';
import { TEENS_ES, TENS_ES, UNITS_ES } from './words/es/numbers.ts';

/** A number found in the tokens: its value and how many tokens it took. */
export interface NumberFound {
  value: number;
  length: number;
  /** "one", "uno", "un", "a": as often a pronoun or an article as a number. */
  couldBePronoun: boolean;
}

interface Numerals {
  units: ReadonlyMap<string, number>;
  teens: ReadonlyMap<string, number>;
  tens: ReadonlyMap<string, number>;
}

const joined = (...tables: Readonly<Record<string, number>>[]): Map<string, number> =>
  new Map(tables.flatMap((table) => Object.entries(table)));

function numeralsFor(locale: Locale): Numerals {
  const teens = joined(TEENS_EN, TEENS_ES);
  // The English "once" is no eleven, and the English "dose" no twelve.
  if (locale === 'en') for (const word of ['once', 'dose', 'dies']) teens.delete(word);
  return { units: joined(UNITS_EN, UNITS_ES), teens, tens: joined(TENS_EN, TENS_ES) };
}

const NUMERALS: Record<Locale, Numerals> = { en: numeralsFor('en'), es: numeralsFor('es') };

const POINTS = new Set(['point', 'coma', 'punto', 'dot', 'comma']);
const HUNDREDS = new Set(['hundred', 'cien', 'ciento']);
const PRONOUNS = new Set(['one', 'uno', 'una', 'un', 'a']);
const DIGITS = /^-?(?:\d+(?:[.,]\d+)?|[.,]\d+)$/u;

const word = (tokens: readonly string[], at: number): string => tokens[at] ?? '';

interface Part {
  value: number;
  next: number;
}

/** "twenty-two", "twentytwo", "treinta y cinco", "diez y seis", "twelve", "two". */
function belowHundred(tokens: readonly string[], at: number, numerals: Numerals): Part | undefined {
  const first = word(tokens, at);
  const tens = numerals.tens.get(first) ?? (['diez', 'dies'].includes(first) ? 10 : undefined);
  if (tens !== undefined) {
    const afterTens = word(tokens, at + 1) === 'y' ? at + 2 : at + 1;
    const unit = numerals.units.get(word(tokens, afterTens));
    const isArticle = PRONOUNS.has(word(tokens, afterTens)) && ['un', 'a'].includes(word(tokens, afterTens));
    if (unit !== undefined && unit > 0 && !isArticle && (tens > 10 || afterTens === at + 2))
      return { value: tens + unit, next: afterTens + 1 };
    return { value: tens, next: at + 1 };
  }
  const small = numerals.teens.get(first) ?? numerals.units.get(first);
  if (small !== undefined) return { value: small, next: at + 1 };
  return joinedNumeral(first, at, numerals);
}

function joinedNumeral(text: string, at: number, numerals: Numerals): Part | undefined {
  for (const [tens, value] of numerals.tens) {
    if (!text.startsWith(tens) || text.length === tens.length) continue;
    const unit = numerals.units.get(text.slice(tens.length));
    if (unit !== undefined && unit > 0) return { value: value + unit, next: at + 1 };
  }
  return undefined;
}

/** "one six", "two two five": the digits of a number one by one; and "one fifty", as English shortens a hundred. */
function digitByDigit(tokens: readonly string[], at: number, numerals: Numerals): Part | undefined {
  const first = numerals.units.get(word(tokens, at)) ?? 0;
  const isDigit = (place: number): boolean =>
    numerals.units.has(word(tokens, place)) && !['un', 'una', 'a'].includes(word(tokens, place));
  if (first === 0 || !isDigit(at)) return undefined;
  const tens = TENS_EN[word(tokens, at + 1)];
  // "Three twenty two" is sooner two readings than one of hundreds.
  if (tens !== undefined && first === 1) {
    const rest = belowHundred(tokens, at + 1, numerals);
    return rest && { value: 100 + rest.value, next: rest.next };
  }
  let next = at + 1;
  while (isDigit(next)) next += 1;
  if (next === at + 1) return undefined;
  const digits = tokens.slice(at, next).map((token) => numerals.units.get(token) ?? 0);
  return { value: Number(digits.join('')), next };
}

function wholeNumber(tokens: readonly string[], at: number, numerals: Numerals): Part | undefined {
  const first = word(tokens, at);
  const hundredAt = HUNDREDS.has(first) ? at : HUNDREDS.has(word(tokens, at + 1)) ? at + 1 : -1;
  const count = hundredAt === at ? 1 : first === 'a' ? 1 : numerals.units.get(first);
  if (hundredAt < 0 || count === undefined)
    return digitByDigit(tokens, at, numerals) ?? belowHundred(tokens, at, numerals);
  const restAt = word(tokens, hundredAt + 1) === 'and' ? hundredAt + 2 : hundredAt + 1;
  const rest = belowHundred(tokens, restAt, numerals);
  if (rest === undefined || ['a', 'un'].includes(word(tokens, restAt)))
    return { value: count * 100, next: hundredAt + 1 };
  return { value: count * 100 + rest.value, next: rest.next };
}

/** The digits spoken after "point" or "coma": "two five" and "veinticinco" are both ".25". */
function spokenDecimals(
  tokens: readonly string[],
  at: number,
  numerals: Numerals,
): { digits: string; next: number } {
  let digits = '';
  let next = at;
  for (;;) {
    const token = word(tokens, next);
    if (/^\d+$/u.test(token) && digits === '') return { digits: token, next: next + 1 };
    const part = token === 'oh' ? { value: 0, next: next + 1 } : belowHundred(tokens, next, numerals);
    if (part === undefined || ['un', 'a'].includes(token)) return { digits, next };
    digits += String(part.value);
    next = part.next;
  }
}

/** What may follow a whole number, its worth and its length in tokens. */
const FRACTIONS: readonly (readonly [RegExp, number, number])[] = [
  [/^and a half\b/u, 0.5, 3],
  [/^and half\b/u, 0.5, 2],
  [/^and a quarter\b/u, 0.25, 3],
  [/^and three quarters\b/u, 0.75, 3],
  [/^and 1\/2(?!\d)/u, 0.5, 2],
  [/^1\/2(?!\d)/u, 0.5, 1],
  [/^1\/4(?!\d)/u, 0.25, 1],
  [/^3\/4(?!\d)/u, 0.75, 1],
  [/^y (?:media|medio|1\/2)(?![\d\p{L}])/u, 0.5, 2],
  [/^y un cuarto\b/u, 0.25, 3],
  [/^y cuarto\b/u, 0.25, 2],
  [/^y tres cuartos\b/u, 0.75, 3],
];

/** "and a half", "y medio", "y cuarto", "1/2" after a whole number. */
export function fractionAfter(tokens: readonly string[], at: number): Part {
  const following = tokens.slice(at, at + 4).join(' ');
  const found = FRACTIONS.find(([shape]) => shape.test(following));
  return found === undefined ? { value: 0, next: at } : { value: found[1], next: at + found[2] };
}

function fractionAlone(token: string): number | undefined {
  const parts = /^(\d{1,3})\/(\d{1,3})$/u.exec(token);
  if (parts === null || Number(parts[2]) === 0) return undefined;
  const value = Number(parts[1]) / Number(parts[2]);
  return value < 1 && Number(parts[2]) <= 16 ? value : undefined;
}

function unsigned(tokens: readonly string[], at: number, numerals: Numerals): Part | undefined {
  const token = word(tokens, at);
  const fraction = fractionAlone(token);
  if (fraction !== undefined) return { value: fraction, next: at + 1 };
  let part: Part | undefined;
  if (DIGITS.test(token)) part = { value: Number(token.replace(',', '.')), next: at + 1 };
  else if (POINTS.has(token) && token !== 'coma' && token !== 'comma') part = { value: 0, next: at };
  else part = wholeNumber(tokens, at, numerals);
  if (part === undefined) return undefined;
  if (POINTS.has(word(tokens, part.next))) {
    const { digits, next } = spokenDecimals(tokens, part.next + 1, numerals);
    if (digits !== '') return { value: Number(`${part.value}.${digits}`), next };
  }
  if (part.next === at) return undefined;
  const extra = fractionAfter(tokens, part.next);
  return { value: part.value + extra.value, next: extra.next };
}

/**
 * The number that begins at a token: digits with point or comma (never thousands), words of either language,
 * fractions, "and a half", "y medio", "minus". Undefined where no number begins.
 */
export function numberAt(tokens: readonly string[], at: number, locale: Locale): NumberFound | undefined {
  const token = word(tokens, at);
  if (token === 'zero' || token === 'cero') {
    // "Below zero" tells no value.
    if (['below', 'under', 'bajo', 'debajo'].includes(word(tokens, at - 1))) return undefined;
  }
  const isMinus = ['minus', 'negative', 'menos'].includes(token) && word(tokens, at - 1) !== 'o';
  const start = isMinus ? at + 1 : at;
  const part = unsigned(tokens, start, NUMERALS[locale]);
  if (part === undefined || !Number.isFinite(part.value)) return undefined;
  return {
    value: isMinus ? -part.value : part.value,
    length: part.next - at,
    couldBePronoun: part.next === start + 1 && PRONOUNS.has(word(tokens, start)),
  };
}
