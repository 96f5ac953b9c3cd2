import { findAll, patternOf, type Pattern } from './pattern.ts';
import type { SpokenNumber } from './reading-tokens.ts';
import { BEFORE, CHANGES, CORRECTIONS, PRESENT, SURELY_BEFORE } from './words/readings.ts';
import { PAUSE } from './words-of.ts';

type Time = 'unsaid' | 'now' | 'before' | 'surely-before';

/** A number once ranges are joined and corrections taken in. */
export interface TimedNumber extends SpokenNumber {
  isRange: boolean;
  time: Time;
  /** It speaks of the same reading as the number before it. */
  continues: boolean;
}

const ready = (texts: readonly string[]): Pattern[] => texts.map((text) => patternOf(text, {}));
const CORRECTION = ready(CORRECTIONS);
const PAST = ready(BEFORE);
const SURELY_PAST = ready(SURELY_BEFORE);
const NOW = ready(PRESENT);
const CHANGE = ready(CHANGES);

const JOINS = new Set(['to', 'a', 'or', 'o', 'hasta', 'through', 'thru', 'maybe', 'u']);
const JOINS_IF_OPENED = new Set(['and', 'y', 'e']);
const OPENERS = new Set(['between', 'entre', 'from', 'de', 'desde', 'anywhere']);

/** Where the last of the patterns ends in a stretch of tokens, or -1. */
function lastPlace(patterns: readonly Pattern[], stretch: readonly string[]): number {
  const ends = patterns.flatMap((pattern) =>
    findAll(pattern, stretch).map(({ positions }) => positions.at(-1) ?? 0),
  );
  return Math.max(-1, ...ends);
}

const has = (patterns: readonly Pattern[], stretch: readonly string[]): boolean =>
  lastPlace(patterns, stretch) >= 0;

type Relation = 'range' | 'change' | 'correction' | 'refused' | 'apart';

function relation(tokens: readonly string[], one: SpokenNumber, other: SpokenNumber): Relation {
  const between = tokens.slice(one.end, other.start);
  const words = between.filter((token) => token !== PAUSE);
  const opening = tokens.slice(Math.max(0, one.start - 8), one.start);
  const isOpened = opening.slice(-2).some((token) => OPENERS.has(token));
  const joint = words.length === 1 ? (words[0] ?? '') : '';
  if (JOINS.has(joint) || (isOpened && JOINS_IF_OPENED.has(joint)))
    return isOpened && has(CHANGE, opening) && !opening.includes('between') && !opening.includes('entre')
      ? 'change'
      : 'range';
  if (words.at(-1) === 'not') return 'refused';
  const isFirstRefused = ['not', 'no'].includes(tokens[one.start - 1] ?? '') && words.length <= 2;
  return isFirstRefused || has(CORRECTION, between) ? 'correction' : 'apart';
}

const withUnitOf = (number: SpokenNumber, other: SpokenNumber): SpokenNumber =>
  number.unit !== undefined || other.unit === undefined
    ? number
    : { ...number, unit: other.unit, isLength: other.isLength, unitSaid: other.unitSaid };

function joinedRange(one: TimedNumber, other: SpokenNumber): TimedNumber {
  const unitHolder = withUnitOf(other, one);
  return { ...one, ...unitHolder, start: one.start, value: (one.value + other.value) / 2, isRange: true };
}

/** The time that the words around a number give it; the last word before it counts most. */
function timeOf(tokens: readonly string[], numbers: readonly SpokenNumber[], index: number): Time {
  const number = numbers[index];
  if (number === undefined) return 'unsaid';
  const following = tokens.slice(number.end, numbers[index + 1]?.start ?? tokens.length);
  const isLast = index === numbers.length - 1;
  const own = isLast ? following : ownWords(following);
  const previous = numbers[index - 1];
  const leading = tokens.slice(previous?.end ?? 0, number.start);
  const before = previous === undefined ? leading : leading.slice(ownWords(leading).length);
  return timeIn(before) ?? timeIn(own) ?? 'unsaid';
}

/** Of the words between two numbers, those that belong to the first: up to the break, or a single "now". */
function ownWords(stretch: readonly string[]): string[] {
  const breakAt = stretch.findIndex((token) => [PAUSE, 'and', 'but', 'y', 'pero', '.'].includes(token));
  if (breakAt > 0) return stretch.slice(0, breakAt);
  return [];
}

function timeIn(stretch: readonly string[]): Time | undefined {
  const past = lastPlace(PAST, stretch);
  const now = lastPlace(NOW, stretch);
  if (past < 0 && now < 0) return undefined;
  if (now > past) return 'now';
  return has(SURELY_PAST, stretch) ? 'surely-before' : 'before';
}

/** A number told as past and the next as present are two values of one reading, unless a name says otherwise. */
function isFollowUp(time: Time, previous: TimedNumber | undefined): boolean {
  if (previous === undefined) return false;
  const isPast = (value: Time): boolean => value === 'before' || value === 'surely-before';
  return isPast(previous.time) !== isPast(time);
}

/** Joins ranges, drops what was corrected, and marks what is told of an earlier time. */
export function mergedNumbers(tokens: readonly string[], numbers: readonly SpokenNumber[]): TimedNumber[] {
  const merged: TimedNumber[] = [];
  numbers.forEach((number, index) => {
    const last = merged.at(-1);
    const before = numbers[index - 1];
    const time = timeOf(tokens, numbers, index);
    const plain: TimedNumber = { ...number, isRange: false, time, continues: isFollowUp(time, last) };
    const how = last === undefined || before === undefined ? 'apart' : relation(tokens, before, number);
    if (last === undefined || how === 'apart') merged.push(plain);
    else if (how === 'refused') return;
    else if (how === 'range') merged[merged.length - 1] = joinedRange(last, number);
    else if (how === 'change') {
      merged[merged.length - 1] = { ...last, ...withUnitOf(last, number), time: 'surely-before' };
      merged.push({ ...plain, ...withUnitOf(number, last), time: 'now', continues: true });
    } else merged[merged.length - 1] = corrected(last, plain);
  });
  return merged;
}

/** The later number stands; it keeps the place and, where it has none of its own, the unit of the one it corrects. */
function corrected(wrong: TimedNumber, right: TimedNumber): TimedNumber {
  return {
    ...right,
    ...withUnitOf(right, wrong),
    time: wrong.time === 'now' ? 'now' : right.time,
    continues: wrong.continues,
  };
}
