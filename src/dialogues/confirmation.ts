/** What was heard in a recording counts only once the person has confirmed it. Plain values; pure. */
import type { Gauges } from '../engine/case.ts';
import type { SpokenReading, Understood } from './event.ts';
import { inSi, isGauge } from './gauges.ts';
import type { Text } from './say.ts';

/** What may be read back: readings, findings, what was done at a visit, an option by its label, or words as they stand. */
export type Confirmable =
  | Extract<Understood, { kind: 'readings' | 'findings' | 'trouble' | 'closing' | 'unclear' }>
  | (Extract<Understood, { kind: 'answer' }> & { label: Text });

/** Something heard and not confirmed yet. Plain JSON, to be kept in a conversation's state. */
export interface Unconfirmed {
  meant: Confirmable;
  /** What it may have been instead, likeliest first. */
  others: Confirmable[];
}

/** What the person says to what was read back. */
export type Reply =
  | { kind: 'yes' }
  | { kind: 'no' }
  /** Other values, with or without a "no". `typed`: they were not heard but written. */
  | { kind: 'readings'; readings: readonly SpokenReading[]; typed: boolean };

export type Confirmed =
  /** This counts now. */
  | { do: 'take'; meant: Confirmable }
  /** Read this back, and ask. */
  | { do: 'read-back'; unconfirmed: Unconfirmed }
  /** Nothing is left of it: ask for it again, typed if the person likes. */
  | { do: 'ask-again' };

/** The readings in something that may be read back. */
export function readingsOf(meant: Confirmable): readonly SpokenReading[] {
  if (meant.kind === 'closing') return meant.said.readings;
  return 'readings' in meant ? meant.readings : [];
}

/**
 * How far readings are from the pool's clean ones: the sum of |ln(reading / clean)|, a missing clean reading counting
 * nothing. A fault moves a gauge by a factor, hence the logarithm. Zero or less counts as a factor of twenty.
 */
export function strangeness(meant: Confirmable, clean: Gauges): number {
  return readingsOf(meant)
    .filter(isGauge)
    .reduce((sum, { quantity, value, unit, earlier }) => {
      const reference = clean[quantity];
      if (reference === undefined || reference <= 0 || earlier === true) return sum;
      const ratio = inSi(value, unit) / reference;
      return sum + (ratio > 0 ? Math.abs(Math.log(ratio)) : Math.log(20));
    }, 0);
}

/**
 * What is to be confirmed of a recording. What was heard comes first; the alternatives follow, those nearest to the
 * pool's clean readings before others, none twice.
 */
export function toConfirm(
  meant: Confirmable,
  alternatives: readonly Confirmable[],
  clean: Gauges,
): Unconfirmed {
  const seen = new Set([JSON.stringify(meant)]);
  const others: Confirmable[] = [];
  for (const alternative of alternatives) {
    const name = JSON.stringify(alternative);
    if (!seen.has(name)) others.push(alternative);
    seen.add(name);
  }
  others.sort((one, other) => strangeness(one, clean) - strangeness(other, clean));
  return { meant, others };
}

/** A later value of the same quantity, then or now, takes the earlier one's place; others stay, new ones follow. */
function corrected(before: readonly SpokenReading[], correction: readonly SpokenReading[]): SpokenReading[] {
  const isSame = (one: SpokenReading, other: SpokenReading): boolean =>
    one.quantity === other.quantity && one.earlier === other.earlier;
  const kept = before.map((reading) => correction.find((later) => isSame(later, reading)) ?? reading);
  const added = correction.filter((later) => !before.some((reading) => isSame(later, reading)));
  return [...kept, ...added];
}

function withReadings(meant: Confirmable, readings: SpokenReading[]): Confirmable {
  if (meant.kind === 'closing') return { ...meant, said: { ...meant.said, readings } };
  return 'readings' in meant ? { ...meant, readings } : { kind: 'readings', readings };
}

function afterCorrection(
  meant: Confirmable,
  { readings, typed }: Extract<Reply, { kind: 'readings' }>,
): Confirmed {
  const all = corrected(readingsOf(meant), readings);
  const now = withReadings(meant, all);
  const isAllTyped = typed && now.kind === 'readings' && all.length === readings.length;
  if (isAllTyped) return { do: 'take', meant: now };
  return { do: 'read-back', unconfirmed: { meant: now, others: [] } };
}

/**
 * What follows from the person's reply. Nothing heard counts without a yes; a correction by voice is read back in its
 * turn, a typed one counts as it stands, but only for what was typed: the rest is read back.
 */
export function afterReply({ meant, others }: Unconfirmed, reply: Reply): Confirmed {
  switch (reply.kind) {
    case 'yes':
      return { do: 'take', meant };
    case 'no': {
      const [next, ...rest] = others;
      if (next === undefined) return { do: 'ask-again' };
      return { do: 'read-back', unconfirmed: { meant: next, others: rest } };
    }
    case 'readings':
      return afterCorrection(meant, reply);
  }
}
