/** Finding the amounts in what a person typed: numbers, each with the unit that follows it, and the words between. */
import { SAID } from './units.ts';
import type { Unit } from './units.ts';

export interface Amount {
  kind: 'amount';
  value: number;
  /** What the number is where its point or comma was meant the other way: 15.000 as fifteen thousand. */
  otherwise?: number;
  unit?: Unit;
}

/** What was found, in its order. `strange`: a word after a number that is no unit known here. */
export type Found = Amount | { kind: 'word'; word: string } | { kind: 'strange'; word: string };

/** Longest text that is read: no amounts take more. */
const LONGEST = 200;

const QUOTES: readonly (readonly [RegExp, string])[] = [
  [/[″“”]|''/gu, '"'],
  [/[′‘’]/gu, "'"],
  [/½/gu, ' 1/2'],
  [/¼/gu, ' 1/4'],
  [/¾/gu, ' 3/4'],
  [/[−–—]/gu, '-'],
  [/[×*]/gu, ' x '],
  [/[$€£]/gu, ' '],
];

/** Folded for reading: lower case, no accents, plain quotes, ² and ³ as digits. */
function folded(text: string): string {
  const plain = QUOTES.reduce((line, [sign, word]) => line.replace(sign, word), text.slice(0, LONGEST));
  return plain
    .normalize('NFKD')
    .replace(/\p{M}+/gu, '')
    .toLowerCase();
}

const escaped = (word: string): string => word.replace(/[$^.*+?()[\]{}|/]/gu, '\\$&').replace(/ /gu, '\\s+');

const WORDS: readonly (readonly [string, Unit])[] = (
  Object.entries(SAID) as [Unit, readonly string[]][]
).flatMap(([unit, words]) => words.map((word) => [word, unit] as const));
const LONGEST_FIRST = [...WORDS].sort(([one], [other]) => other.length - one.length);
/** Each unit word as a pattern at the beginning of what follows a number; a mark such as " needs no end. */
const UNIT_STARTS = LONGEST_FIRST.map(([word, unit]) => {
  const end = /[\p{L}\d]$/u.test(word) ? '(?![\\p{L}\\d/^])' : '';
  return { unit, pattern: new RegExp(`^\\s*${escaped(word)}${end}\\.?`, 'u') };
});

const RATIO = /^1\s*(?::|to|a|\/)\s*(\d{1,3})(?![\d/.,])/u;
/** Denominators with which inches are told; 1/20 is a ratio. */
const FRACTION = /^(?:(\d+)[\s-]+)?(\d+)\/(2|4|8|16)(?!\d)/u;
const NUMBER = /^-?(?:\d[\d.,]*\d|\d|[.,]\d+)/u;
const SEPARATOR = /^(?:[\s,;:=@()+-]+|[x&](?=[\s\d]))/u;
const WORD = /^[\p{L}_'"%/^]+/u;

/** Words that may follow a number and tell nothing. */
const FILLERS = new Set(
  `x by por y and at of de of en a to with con then pipe tubo tuberia long largo wide ancho deep hondo profundo depth
  profundidad shallow end water agua pool piscina the la el`.split(/\s+/u),
);

interface Read {
  value: number;
  otherwise?: number;
}

/** A number as written; undefined where its points and commas make none. */
function numberOf(written: string): Read | undefined {
  if (/^-?\d{1,3}(?:[.,]\d{3})+$/u.test(written)) {
    const grouped = Number(written.replace(/[.,]/gu, ''));
    const marks = written.match(/[.,]/gu) ?? [];
    if (marks.length > 1 || /^-?0/u.test(written))
      return { value: marks.length > 1 ? grouped : Number(written.replace(',', '.')) };
    const decimal = Number(written.replace(',', '.'));
    return marks[0] === ',' ? { value: grouped, otherwise: decimal } : { value: decimal, otherwise: grouped };
  }
  if (/^-?\d*[.,]?\d+$/u.test(written)) return { value: Number(written.replace(',', '.')) };
  const mixed = /^(-?\d{1,3}(?:([.,])\d{3})+)([.,])(\d+)$/u.exec(written);
  if (mixed === null || mixed[2] === mixed[3]) return undefined;
  return { value: Number(`${(mixed[1] ?? '').replace(/[.,]/gu, '')}.${mixed[4] ?? ''}`) };
}

function unitAt(rest: string): { unit: Unit; length: number } | undefined {
  for (const { unit, pattern } of UNIT_STARTS) {
    const found = pattern.exec(rest);
    if (found !== null) return { unit, length: found[0].length };
  }
  return undefined;
}

interface Step {
  found: Found[];
  length: number;
}

function ratioAt(rest: string): Step | undefined {
  const ratio = RATIO.exec(rest);
  // 1/2 and 1/4 are fractions of an inch.
  if (ratio === null || FRACTION.test(rest)) return undefined;
  return { found: [{ kind: 'amount', value: Number(ratio[1]), unit: 'parts' }], length: ratio[0].length };
}

function valueAt(rest: string): { read: Read | undefined; length: number } | undefined {
  const fraction = FRACTION.exec(rest);
  if (fraction !== null)
    return {
      read: { value: Number(fraction[1] ?? 0) + Number(fraction[2]) / Number(fraction[3]) },
      length: fraction[0].length,
    };
  const number = NUMBER.exec(rest);
  return number === null ? undefined : { read: numberOf(number[0]), length: number[0].length };
}

/** "15k": thousands. */
const THOUSANDS = /^k(?![\p{L}\d])/u;

function amountAt(rest: string): Step | undefined {
  const said = valueAt(rest);
  if (said === undefined) return undefined;
  const { read, length } = said;
  if (read === undefined) return { found: [{ kind: 'strange', word: rest.slice(0, length) }], length };
  const isThousands = THOUSANDS.test(rest.slice(length));
  const amount: Amount = isThousands
    ? { kind: 'amount', value: read.value * 1000 }
    : { kind: 'amount', ...read };
  const unitStart = length + (isThousands ? 1 : 0);
  const unit = unitAt(rest.slice(unitStart));
  if (unit !== undefined) return { found: [{ ...amount, unit: unit.unit }], length: unitStart + unit.length };
  const word = /^\s*([\p{L}]+)/u.exec(rest.slice(unitStart))?.[1];
  if (word === undefined || FILLERS.has(word)) return { found: [amount], length: unitStart };
  return { found: [amount, { kind: 'strange', word }], length: unitStart };
}

function stepAt(rest: string): Step {
  const separator = SEPARATOR.exec(rest);
  if (separator !== null && !/^-\d/u.test(separator[0].slice(-1) + rest.slice(separator[0].length)))
    return { found: [], length: separator[0].length };
  const step = ratioAt(rest) ?? amountAt(rest);
  if (step !== undefined) return step;
  const word = WORD.exec(rest)?.[0];
  return word === undefined
    ? { found: [], length: 1 }
    : { found: [{ kind: 'word', word }], length: word.length };
}

/** Reads a text as amounts and words, in either language. Any string; never throws. */
export function amountsIn(text: string): Found[] {
  const line = folded(text);
  const found: Found[] = [];
  for (let at = 0; at < line.length;) {
    const step = stepAt(line.slice(at));
    // A dash between two numbers joins them: "3.5-8" has no minus.
    const last = found.at(-1);
    const joined =
      /^-\d/u.test(line.slice(at)) && last?.kind === 'amount' && /[\p{L}\d"']/u.test(line[at - 1] ?? '');
    if (joined) at += 1;
    else {
      found.push(...step.found);
      at += step.length;
    }
  }
  return found;
}
