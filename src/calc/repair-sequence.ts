/**
 * Expected cost of repair: repairs tried one after another until one cures, then the hand-off.
 * Costs are minutes; the causes exclude each other.
 */

export interface TriedRepair {
  /** Which cause it cures. */
  cause: number;
  minutes: number;
  /** Probability that it cures its cause where that is the cause, 0 to 1. */
  cures: number;
  /** What it takes to look whether the cause is there, minutes; then only what is found is repaired. Infinity where there is no look. */
  lookMinutes: number;
}

export interface HandOff {
  /** What handing the case on costs, minutes. */
  minutes: number;
  /** What is lost besides where the cause is not among the suspects handed on, minutes. */
  blindMinutes: number;
  /** How many suspects are handed on, 0 to 3. */
  suspects: number;
  /** What the repair of each cause still costs whoever takes over, minutes. Left out: nothing. */
  repairMinutes?: readonly number[];
}

/**
 * What trying a repair is expected to take: the repair itself, or a look and the repair only where the look finds
 * its cause, whichever is less. `share` is the probability of its cause at that point.
 */
function expectedMinutes({ minutes, lookMinutes }: TriedRepair, share: number): number {
  return Math.min(minutes, lookMinutes + share * minutes);
}

/**
 * Repairs ordered by probability of cure over minutes, highest first: optimal where each repair cures one cause
 * (Kadane & Simon 1977).
 */
export function orderedByPromise<R extends TriedRepair>(
  belief: readonly number[],
  repairs: readonly R[],
): R[] {
  const promises: number[] = [];
  const ordered: R[] = [];
  for (const repair of repairs) {
    const p = belief[repair.cause] ?? 0;
    const promise = (p * repair.cures) / expectedMinutes(repair, p);
    // Insertion keeps the short list sorted as it grows; a general sort costs several times as much here.
    let place = ordered.length;
    while (place > 0 && (promises[place - 1] ?? 0) < promise) place -= 1;
    promises.splice(place, 0, promise);
    ordered.splice(place, 0, repair);
  }
  return ordered;
}

/** Sum of the three largest values, or of fewer where fewer are wanted. */
function largest(values: readonly number[], wanted: number): number {
  let first = 0;
  let second = 0;
  let third = 0;
  for (const value of values) {
    if (value <= third) continue;
    if (value > first) {
      third = second;
      second = first;
      first = value;
    } else if (value > second) {
      third = second;
      second = value;
    } else third = value;
  }
  return (wanted > 0 ? first : 0) + (wanted > 1 ? second : 0) + (wanted > 2 ? third : 0);
}

/** What the repairs of the causes still uncured cost whoever takes over. */
function repairsLeft(rest: readonly number[], minutes: readonly number[] | undefined): number {
  let sum = 0;
  if (minutes !== undefined)
    for (let cause = 0; cause < rest.length; cause += 1) sum += (minutes[cause] ?? 0) * (rest[cause] ?? 0);
  return sum;
}

/**
 * Least expected minutes of the best-ordered repairs with the best point to hand off:
 * Σ minutes × P(not cured before) + P(not cured) × hand-off.
 */
export function expectedCostOfRepair(
  belief: readonly number[],
  repairs: readonly TriedRepair[],
  handOff: HandOff,
): number {
  const { minutes, blindMinutes, suspects, repairMinutes } = handOff;
  const rest = belief.slice();
  let left = 1;
  let spent = 0;
  let toRepair = repairsLeft(rest, repairMinutes);
  let best = left * (minutes + blindMinutes) - blindMinutes * largest(rest, suspects) + toRepair;
  for (const repair of orderedByPromise(belief, repairs)) {
    const weight = rest[repair.cause] ?? 0;
    spent += left * expectedMinutes(repair, weight / left);
    if (spent >= best) break;
    const cured = weight * repair.cures;
    rest[repair.cause] = weight - cured;
    toRepair -= cured * (repairMinutes?.[repair.cause] ?? 0);
    left -= cured;
    const blind = blindMinutes === 0 ? 0 : blindMinutes * (left - largest(rest, suspects));
    best = Math.min(best, spent + left * minutes + blind + toRepair);
  }
  return best;
}
