import type { FlowUnit } from '../../calc/units.ts';
import { FLOW_UNITS } from '../../calc/units.ts';
import type { Asked, Locale, Measured, ReadingUnit, SpokenReading } from '../../dialogues/event.ts';
import type { Quantity } from '../../knowledge/ids.ts';
import { isLinked, mentionsIn, type Mention } from './mentions.ts';
import { mergedNumbers, type TimedNumber } from './number-relations.ts';
import {
  countsOtherThings,
  isOfNumber,
  readingTokens,
  spokenNumbers,
  type SpokenNumber,
} from './reading-tokens.ts';
import { isUnsteady } from './unsteady.ts';

const DEFAULT_UNIT: Record<Quantity, ReadingUnit> = {
  'filter-pressure': 'psi',
  'pump-vacuum': 'inHg',
  'cleaner-suction': 'inHg',
  'wheel-turns': 'turns/min',
};

/** What a unit alone tells. Kilopascals, feet and metres are said of both gauges. */
type Unit = SpokenReading['unit'];

const isFlowUnit = (unit: Unit): unit is FlowUnit => FLOW_UNITS.some((known) => known === unit);

const QUANTITY_OF_UNIT: Partial<Record<Unit, Measured>> = {
  gpm: 'flow',
  'm3/h': 'flow',
  'l/min': 'flow',
  psi: 'filter-pressure',
  bar: 'filter-pressure',
  inHg: 'pump-vacuum',
  'turns/min': 'wheel-turns',
};

/** Longest message, in tokens, in which a bare "9 inches" is taken for a reading that nobody asked for. */
const BARE_LENGTH_TOKENS = 4;

function fits(quantity: Measured, unit: Unit | undefined): boolean {
  if (unit === undefined) return true;
  if (quantity === 'flow' || isFlowUnit(unit)) return quantity === 'flow' && isFlowUnit(unit);
  if ((quantity === 'wheel-turns') !== (unit === 'turns/min')) return false;
  if (quantity === 'filter-pressure') return unit !== 'inHg';
  return quantity === 'wheel-turns' || unit !== 'psi';
}

/** More numbers than this in a message are a table or a story, not readings. */
const MOST_NUMBERS = 12;

/** Numbers beside these are hours, telephone or house numbers. */
const NO_TALK_OF_GAUGES =
  /^(?:call|phone|telephone|tomorrow|appointment|address|street|llama|llamame|manana|cita|telefono|calle)$/u;

interface Named {
  number: SpokenNumber;
  mention?: Mention;
}

/** "Up 8 psi": by how much it changed, and no reading. */
function isChange(tokens: readonly string[], { start }: SpokenNumber): boolean {
  return /^(?:up|down|rose|risen|climbed|dropped|fell|fallen|by)$/u.test(tokens[start - 1] ?? '');
}

/** "Vacuum 40 inches": a length with the gauge's own name before it. */
function isVacuumInInches(tokens: readonly string[], { start, unitSaid }: SpokenNumber): boolean {
  return /^(?:inch|pulg)/u.test(unitSaid) && /^(?:vac|vacuum|vacio)$/u.test(tokens[start - 1] ?? '');
}

/** Gives each number the name that belongs to it: names before their numbers, or numbers before their names. */
function named(tokens: readonly string[], numbers: readonly SpokenNumber[]): Named[] {
  const mentions = mentionsIn(tokens, (at) => isOfNumber(numbers, at));
  const claimed = new Set<Mention>();
  const first = numbers[0];
  const namesComeFirst =
    first !== undefined && mentions.some((mention) => linkedBefore(tokens, mention, first));
  return numbers.map((number, index) => {
    const previousEnd = numbers[index - 1]?.end ?? 0;
    const nextStart = numbers[index + 1]?.start ?? tokens.length;
    const free = mentions.filter((mention) => !claimed.has(mention));
    const before = free.findLast(
      (mention) => mention.start >= previousEnd && linkedBefore(tokens, mention, number),
    );
    // "22 psi vacuum 3": a name that does not go with the unit belongs to the number that is still to come.
    const isOwn = ({ quantity }: Mention): boolean =>
      index === numbers.length - 1 || fits(quantity, number.unit);
    const after = free.find(
      (mention) => mention.start < nextStart && linkedAfter(tokens, mention, number) && isOwn(mention),
    );
    const mention = namesComeFirst ? (before ?? after) : (after ?? before);
    if (mention === undefined) return { number };
    claimed.add(mention);
    return { number, mention };
  });
}

const linkedBefore = (tokens: readonly string[], mention: Mention, number: SpokenNumber): boolean =>
  mention.end <= number.start && isLinked(tokens, mention.end, number.start);

const linkedAfter = (tokens: readonly string[], mention: Mention, number: SpokenNumber): boolean =>
  mention.start >= number.end && isLinked(tokens, number.end, mention.start);

function quantityOf(
  { number, mention }: Named,
  asked: Measured | undefined,
  numbers: readonly SpokenNumber[],
  tokens: readonly string[],
): Measured | undefined {
  if (
    mention !== undefined &&
    (number.unit === undefined ||
      fits(mention.quantity, number.unit) ||
      (asked === undefined && mention.quantity !== 'flow' && !isFlowUnit(number.unit)))
  )
    return mention.quantity;
  const byUnit = number.unit === undefined ? undefined : QUANTITY_OF_UNIT[number.unit];
  if (asked === undefined) return isBareLengthInTalk(number, numbers, tokens) ? undefined : byUnit;
  // A gauge does not show another's unit: psi told where the vacuum was asked is the filter's.
  return fits(asked, number.unit) ? asked : byUnit;
}

/** An everyday length in a message that speaks of no gauge by another unit, and of more than the length. */
function isBareLengthInTalk(
  number: SpokenNumber,
  numbers: readonly SpokenNumber[],
  tokens: readonly string[],
): boolean {
  const isOfGauges = numbers.some(({ unit, isLength }) => unit !== undefined && !isLength);
  return number.isLength && !isOfGauges && tokens.length > BARE_LENGTH_TOKENS;
}

/** Speeds of a pump are told in the wheels' unit. */
function isPumpSpeed(number: SpokenNumber, asked: Measured | undefined, tokens: readonly string[]): boolean {
  if (!/^(?:rpms?|revolutions|revoluciones)/u.test(number.unitSaid) || asked === 'wheel-turns') return false;
  return (
    tokens.some((token) => /^(?:pump|motor|bomba|speed|velocidad|variable)$/u.test(token)) ||
    number.value > 200
  );
}

/** "15 in 30 seconds", as turns a minute. */
function perMinute(numbers: readonly SpokenNumber[], asked: Measured | undefined): SpokenNumber[] {
  if (asked !== 'wheel-turns') return [...numbers];
  const seconds = numbers.find(({ unitSaid }) => /^(?:sec|seg)/u.test(unitSaid));
  if (seconds === undefined || seconds.value <= 0) return [...numbers];
  return numbers.map((number) =>
    number === seconds ? number : { ...number, value: (number.value * 60) / seconds.value },
  );
}

interface Quantified extends TimedNumber {
  quantity: Measured;
}

/** A second number of a reading already named ("pressure was 13, now 24") takes over its name. */
function withQuantities(
  timed: readonly TimedNumber[],
  tokens: readonly string[],
  asked: Measured | undefined,
): Quantified[] {
  const names = named(tokens, timed);
  const quantified: Quantified[] = [];
  timed.forEach((number, index) => {
    const name = names[index] ?? { number };
    const previous = quantified.at(-1);
    const follows = name.mention === undefined && number.continues && previous !== undefined;
    const quantity = follows ? previous.quantity : quantityOf(name, asked, timed, tokens);
    if (quantity !== undefined) quantified.push({ ...number, quantity });
  });
  return quantified;
}

function readingOf({ quantity, value, unit, isRange, time }: Quantified, isAlone: boolean): SpokenReading {
  const isEarlier = time === 'surely-before' || (time === 'before' && !isAlone);
  const said = {
    ...(isRange ? { unsteady: true } : {}),
    ...(isEarlier ? { earlier: true } : {}),
  };
  if (quantity === 'flow')
    return { quantity, value, unit: unit !== undefined && isFlowUnit(unit) ? unit : 'gpm', ...said };
  const own = unit === undefined || isFlowUnit(unit) ? DEFAULT_UNIT[quantity] : unit;
  return { quantity, value, unit: own, ...said };
}

/** Two present values of one reading contradict each other, unless one is named as the earlier. */
function contradicts(readings: readonly SpokenReading[]): boolean {
  const keys = readings.map(({ quantity, earlier }) => `${quantity} ${earlier === true}`);
  return new Set(keys).size < keys.length;
}

function markUnsteady(readings: SpokenReading[], tokens: readonly string[]): SpokenReading[] {
  const last = readings.findLastIndex(({ earlier }) => earlier !== true);
  if (!isUnsteady(tokens)) return readings;
  return readings.map((reading, index) => (index === last ? { ...reading, unsteady: true } : reading));
}

/**
 * The readings that a message gives, in the order said, or an empty list. Values are passed on as said, possible or
 * not. A bare number is the reading asked for; where none is asked, a name or a unit must tell what it is.
 * @param folded the message as `foldedText` gives it.
 */
export function readingsIn(folded: string, asked: Asked | undefined, locale: Locale): SpokenReading[] {
  const tokens = readingTokens(folded);
  const wanted = asked?.reading;
  if (tokens.some((token) => NO_TALK_OF_GAUGES.test(token))) return [];
  const numbers = spokenNumbers(tokens, locale);
  if (numbers.length > MOST_NUMBERS) return [];
  const counted = perMinute(numbers, wanted).filter(
    (number) =>
      !countsOtherThings(number) && !isPumpSpeed(number, wanted, tokens) && !isChange(tokens, number),
  );
  const timed = mergedNumbers(tokens, counted);
  const isTalk = asked !== undefined && wanted === undefined && counted.every(({ isLength }) => isLength);
  if (isTalk && !timed.every((number) => isVacuumInInches(tokens, number))) return [];
  const quantified = withQuantities(timed, tokens, wanted);
  const readings = quantified.map((number) =>
    readingOf(number, quantified.filter(({ quantity }) => quantity === number.quantity).length === 1),
  );
  return contradicts(readings) ? [] : markUnsteady(readings, tokens);
}

/** Where a reading stands among the tokens, from its name or its number to its end. */
interface Span {
  start: number;
  end: number;
}

/**
 * The places of the readings in a message, each with a name or a unit of its own; none where a number has neither,
 * as what it belongs to is then told by the words around it.
 */
export function readingSpans(tokens: readonly string[], locale: Locale): Span[] {
  const numbers = spokenNumbers(tokens, locale).filter((number) => !countsOtherThings(number));
  const names = named(tokens, numbers);
  const isTold = names.every(({ number, mention }) => mention !== undefined || number.unit !== undefined);
  if (!isTold) return [];
  return names.map(({ number, mention }) => ({
    start: Math.min(number.start, mention?.start ?? number.start),
    end: Math.max(number.end, mention?.end ?? number.end),
  }));
}
