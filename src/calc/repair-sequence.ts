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
}

export interface HandOff {
  /** What handing the case on costs, minutes. */
  minutes: number;
  /** What is lost besides where the cause is not among the suspects handed on, minutes. */
  blindMinutes: number;
  /** How many suspects are handed on. */
  suspects: number;
  /** What the repair of each cause still costs whoever takes over, minutes. Left out: nothing. */
  repairMinutes?: readonly number[];
}

/** Repairs ordered by probability of cure over minutes, highest first: optimal where each repair cures one cause (Kadane & Simon 1977). */
export function orderedByPromise<R extends TriedRepair>(
  belief: readonly number[],
  repairs: readonly R[],
): R[] {
  return repairs
    .map((repair) => ({ repair, promise: ((belief[repair.cause] ?? 0) * repair.cures) / repair.minutes }))
    .sort((a, b) => b.promise - a.promise)
    .map(({ repair }) => repair);
}

/** Sum of the n largest values. */
function largest(values: readonly number[], n: number): number {
  const top = new Array<number>(n).fill(0);
  for (const value of values) {
    let carried = value;
    for (let rank = 0; rank < n && carried > (top[n - 1] ?? 0); rank += 1) {
      const held = top[rank] ?? 0;
      if (carried > held) {
        top[rank] = carried;
        carried = held;
      }
    }
  }
  return top.reduce((sum, value) => sum + value, 0);
}

/** What the repairs of the causes still uncured cost whoever takes over. */
function repairsLeft(rest: readonly number[], handOff: HandOff): number {
  return handOff.repairMinutes?.reduce((sum, minutes, cause) => sum + minutes * (rest[cause] ?? 0), 0) ?? 0;
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
  const rest = [...belief];
  let left = 1;
  let spent = 0;
  let toRepair = repairsLeft(rest, handOff);
  const handedOff = (): number =>
    spent +
    left * (handOff.minutes + handOff.blindMinutes) -
    handOff.blindMinutes * largest(rest, handOff.suspects) +
    toRepair;
  let best = handedOff();
  for (const repair of orderedByPromise(belief, repairs)) {
    spent += left * repair.minutes;
    if (spent >= best) break;
    const cured = (rest[repair.cause] ?? 0) * repair.cures;
    rest[repair.cause] = (rest[repair.cause] ?? 0) - cured;
    toRepair -= cured * (handOff.repairMinutes?.[repair.cause] ?? 0);
    left -= cured;
    best = Math.min(best, handedOff());
  }
  return best;
}
