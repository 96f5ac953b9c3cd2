/** What was heard is kept only once the person has confirmed it. Plain values; pure. */
import { toPascal } from '../calc/units.ts';
import type { Quantity } from '../knowledge/ids.ts';
import type { HeardReading } from './read-back.ts';

/** Readings heard and not confirmed yet. Plain JSON, to be kept in a conversation's state. */
export interface Unconfirmed {
  readings: HeardReading[];
  /** What it may have been instead, likeliest first. */
  others: HeardReading[][];
}

/** Clean readings of the pool in SI: pascal, turns a minute. */
export type Baseline = Partial<Record<Quantity, number>>;

/** What the person says to what was read back. */
export type Reply =
  | { kind: 'yes' }
  | { kind: 'no' }
  /** Other values, with or without a "no". `typed`: they were not heard but written. */
  | { kind: 'readings'; readings: readonly HeardReading[]; typed?: boolean };

export type Confirmed =
  /** These may be recorded. */
  | { do: 'record'; readings: HeardReading[] }
  /** Read these back, and ask. */
  | { do: 'read-back'; unconfirmed: Unconfirmed }
  /** Nothing is left of it: ask for the reading again, typed if the person likes. */
  | { do: 'ask-again' };

const inSi = ({ value, unit }: HeardReading): number =>
  unit === 'turns/min' ? value : toPascal(value, unit);

/**
 * How far readings are from the pool's clean ones: the sum of |ln(reading / clean)|, a missing clean reading counting
 * nothing. A fault moves a gauge by a factor, hence the logarithm. Zero or less counts as a factor of twenty.
 */
export function strangeness(readings: readonly HeardReading[], baseline: Baseline): number {
  return readings.reduce((sum, reading) => {
    const clean = baseline[reading.quantity];
    if (clean === undefined || clean <= 0 || reading.earlier === true) return sum;
    const ratio = inSi(reading) / clean;
    return sum + (ratio > 0 ? Math.abs(Math.log(ratio)) : Math.log(20));
  }, 0);
}

const sameAs = (readings: readonly HeardReading[]): string =>
  JSON.stringify(readings.map(({ quantity, value, unit }) => [quantity, value, unit]));

/**
 * What is to be confirmed of a recording. What was heard comes first; the alternatives follow, those nearest to the
 * pool's clean readings before others, none twice.
 */
export function toConfirm(
  heard: readonly HeardReading[],
  alternatives: readonly (readonly HeardReading[])[],
  baseline: Baseline,
): Unconfirmed {
  const seen = new Set([sameAs(heard), sameAs([])]);
  const others: HeardReading[][] = [];
  for (const alternative of alternatives) {
    if (seen.has(sameAs(alternative))) continue;
    seen.add(sameAs(alternative));
    others.push([...alternative]);
  }
  others.sort((one, other) => strangeness(one, baseline) - strangeness(other, baseline));
  return { readings: [...heard], others };
}

/** A later value of the same quantity, then or now, replaces the earlier one; others stay. */
function corrected(before: readonly HeardReading[], correction: readonly HeardReading[]): HeardReading[] {
  const isReplaced = (reading: HeardReading): boolean =>
    correction.some(({ quantity, earlier }) => quantity === reading.quantity && earlier === reading.earlier);
  return [...before.filter((reading) => !isReplaced(reading)), ...correction];
}

/**
 * What follows from the person's reply. Nothing heard is recorded without a yes; a correction by voice is read back in
 * its turn, a typed one counts as it stands, but only for what was typed: the rest is read back.
 */
export function afterReply(unconfirmed: Unconfirmed, reply: Reply): Confirmed {
  switch (reply.kind) {
    case 'yes':
      return { do: 'record', readings: unconfirmed.readings };
    case 'no': {
      const [next, ...others] = unconfirmed.others;
      return next === undefined
        ? { do: 'ask-again' }
        : { do: 'read-back', unconfirmed: { readings: next, others } };
    }
    case 'readings': {
      const readings = corrected(unconfirmed.readings, reply.readings);
      const isAllTyped = reply.typed === true && readings.length === reply.readings.length;
      return isAllTyped
        ? { do: 'record', readings }
        : { do: 'read-back', unconfirmed: { readings, others: [] } };
    }
  }
}
