/**
 * Expected cost of repair: repairs tried one after another until one cures, then the hand-off.
 * Costs are minutes; the causes exclude each other. The choice of a step asks this hundreds of times, so the
 * tables are flat arrays and nothing is allocated on the way.
 */

export interface TriedRepair {
  /** Which cause it cures. */
  cause: number;
  minutes: number;
  /** Probability that it cures its cause where that is the cause, 0 to 1. */
  cures: number;
  /** What it takes to look whether the cause is there, minutes; then only what is found is repaired. Infinity where there is no look. */
  lookMinutes: number;
  /** The repair is not thought of where its cause is not likelier than this. */
  onlyAbove: number;
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

/** Repairs as columns, for speed. */
export interface RepairTable {
  cause: Int32Array;
  minutes: Float64Array;
  cures: Float64Array;
  lookMinutes: Float64Array;
  onlyAbove: Float64Array;
}

/** The columns of a list of repairs. */
export function tabled(repairs: readonly TriedRepair[]): RepairTable {
  return {
    cause: Int32Array.from(repairs, ({ cause }) => cause),
    minutes: Float64Array.from(repairs, ({ minutes }) => minutes),
    cures: Float64Array.from(repairs, ({ cures }) => cures),
    lookMinutes: Float64Array.from(repairs, ({ lookMinutes }) => lookMinutes),
    onlyAbove: Float64Array.from(repairs, ({ onlyAbove }) => onlyAbove),
  };
}

/** Most repairs and causes that one model may have. */
const MOST = 256;
const order = new Int32Array(MOST);
const promise = new Float64Array(MOST);
const rest = new Float64Array(MOST);

/**
 * What trying a repair is expected to take: the repair itself, or a look and the repair only where the look finds
 * its cause, whichever is less. `share` is the probability of its cause at that point.
 */
function expectedMinutes(minutes: number, lookMinutes: number, share: number): number {
  return Math.min(minutes, lookMinutes + share * minutes);
}

/**
 * Fills `order` with the repairs worth thinking of, by probability of cure over minutes, highest first: optimal
 * where each repair cures one cause (Kadane & Simon 1977). Returns how many there are.
 */
function orderByPromise(belief: readonly number[], repairs: RepairTable, without: number): number {
  let count = 0;
  for (let index = 0; index < repairs.cause.length; index += 1) {
    const cause = repairs.cause[index] ?? 0;
    const p = belief[cause] ?? 0;
    if (cause === without || p <= (repairs.onlyAbove[index] ?? 0)) continue;
    const minutes = expectedMinutes(repairs.minutes[index] ?? 0, repairs.lookMinutes[index] ?? 0, p);
    const own = (p * (repairs.cures[index] ?? 0)) / minutes;
    let place = count;
    for (; place > 0 && (promise[place - 1] ?? 0) < own; place -= 1) {
      promise[place] = promise[place - 1] ?? 0;
      order[place] = order[place - 1] ?? 0;
    }
    promise[place] = own;
    order[place] = index;
    count += 1;
  }
  return count;
}

/** Sum of the three largest of what is left of `count` causes, or of fewer where fewer are wanted. */
function largestLeft(count: number, wanted: number): number {
  let first = 0;
  let second = 0;
  let third = 0;
  for (let cause = 0; cause < count; cause += 1) {
    const value = rest[cause] ?? 0;
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

function repairsLeft(belief: readonly number[], minutes: readonly number[] | undefined): number {
  let sum = 0;
  for (let cause = 0; minutes !== undefined && cause < belief.length; cause += 1)
    sum += (minutes[cause] ?? 0) * (belief[cause] ?? 0);
  return sum;
}

/**
 * Least expected minutes of the best-ordered repairs with the best point to hand off:
 * Σ minutes × P(not cured before) + P(not cured) × hand-off.
 * @param belief probability of each cause, summing to one; at most 256 causes.
 * @param without a cause whose repair is left out; none where −1.
 */
export function expectedCostOfRepair(
  belief: readonly number[],
  repairs: RepairTable,
  handOff: HandOff,
  without = -1,
): number {
  const { minutes, blindMinutes, suspects, repairMinutes } = handOff;
  const causes = belief.length;
  for (let cause = 0; cause < causes; cause += 1) rest[cause] = belief[cause] ?? 0;
  let left = 1;
  let spent = 0;
  let toRepair = repairsLeft(belief, repairMinutes);
  let best = minutes + blindMinutes * (1 - largestLeft(causes, suspects)) + toRepair;
  const count = orderByPromise(belief, repairs, without);
  for (let place = 0; place < count; place += 1) {
    const index = order[place] ?? 0;
    const cause = repairs.cause[index] ?? 0;
    const weight = rest[cause] ?? 0;
    spent +=
      left * expectedMinutes(repairs.minutes[index] ?? 0, repairs.lookMinutes[index] ?? 0, weight / left);
    if (spent >= best) break;
    const cured = weight * (repairs.cures[index] ?? 0);
    rest[cause] = weight - cured;
    toRepair -= cured * (repairMinutes?.[cause] ?? 0);
    left -= cured;
    // The last look at the three largest is dear; it is not needed where it could not lower the best.
    const sure = spent + left * minutes + toRepair;
    if (sure < best) best = Math.min(best, sure + blindMinutes * (left - largestLeft(causes, suspects)));
  }
  return best;
}
