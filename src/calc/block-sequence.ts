/**
 * Expected cost of repair: repairs tried one after another until one cures, then the hand-off. Costs are minutes;
 * the causes exclude each other. What needs the same set-up (the pump off, a lid open) is taken as one ordered block.
 * The choice of a step asks this hundreds of times, so the tables are flat arrays and nothing is allocated on the way.
 */

import type { HandOff, RepairTable, SetUps } from './repair-table.ts';

/** Most repairs and causes that one model may have. */
const MOST = 256;
const order = new Int32Array(MOST);
const promise = new Float64Array(MOST);
const rest = new Float64Array(MOST);
/** The set-ups that a repair's look still has to pay for, 0 where it shares none. */
const block = new Int32Array(MOST);
/** The class of the repair or look that comes first; of one that does not pay, the highest class of all. */
const level = new Int32Array(MOST);
const blockCures = new Float64Array(MOST);
const blockMinutes = new Float64Array(MOST);
const inBlock = new Int32Array(MOST);

/** Puts a repair among the `count` ordered ones: by level, lowest first, then by promise, highest first. */
function insert(index: number, own: number, count: number): void {
  let place = count;
  const ownLevel = level[index] ?? 0;
  for (; place > 0; place -= 1) {
    const other = level[order[place - 1] ?? 0] ?? 0;
    if (other < ownLevel || (other === ownLevel && (promise[place - 1] ?? 0) >= own)) break;
    promise[place] = promise[place - 1] ?? 0;
    order[place] = order[place - 1] ?? 0;
  }
  promise[place] = own;
  order[place] = index;
}

/**
 * Fills `order` with the repairs worth thinking of, by probability of cure over minutes, highest first: optimal
 * where each repair cures one cause (Kadane & Simon 1977). A look that shares a set-up with others counts here
 * without it. Returns how many repairs there are.
 */
function orderByPromise(
  belief: ArrayLike<number>,
  repairs: RepairTable,
  setUpMinutes: Float64Array,
  open: SetUps,
  toGo: number,
  without: number,
): number {
  const { cause: causes, onlyAbove, minutes, needs, lookMinutes, lookNeeds, cures } = repairs;
  let count = 0;
  let highest = 0;
  for (const one of repairs.class) highest = Math.max(highest, one);
  for (let index = 0; index < causes.length; index += 1) {
    const cause = causes[index] ?? 0;
    const p = belief[cause] ?? 0;
    if (cause === without || p <= (onlyAbove[index] ?? 0)) continue;
    const repair = minutes[index] ?? 0;
    const toRepair = needs[index] ?? 0;
    const toLook = lookNeeds[index] ?? 0;
    const blind = repair + (setUpMinutes[toRepair & ~open] ?? 0);
    const look = (lookMinutes[index] ?? 0) + p * (repair + (setUpMinutes[toRepair & ~(open | toLook)] ?? 0));
    const looks = look + (setUpMinutes[toLook & ~open] ?? 0) < blind;
    block[index] = looks ? toLook & ~open : 0;
    const takes = looks ? look : blind;
    const cured = p * (cures[index] ?? 0);
    const own = (looks ? repairs.lookClass[index] : repairs.class[index]) ?? 0;
    level[index] = cured * toGo > takes ? own : highest;
    insert(index, cured / takes, count);
    count += 1;
  }
  return count;
}

/**
 * Takes what shares a set-up as one block: its best beginning, set-up and all, is one step of the order
 * (the composite jobs of Sidney 1975; cost clusters of troubleshooting, Ottosen & Jensen).
 */
function orderBlocks(
  count: number,
  belief: ArrayLike<number>,
  repairs: RepairTable,
  setUpMinutes: Float64Array,
): void {
  for (let set = 0; set < setUpMinutes.length; set += 1) {
    blockCures[set] = 0;
    blockMinutes[set] = setUpMinutes[set] ?? 0;
  }
  for (let place = 0; place < count; place += 1) {
    const index = order[place] ?? 0;
    const set = block[index] ?? 0;
    inBlock[index] = 0;
    if (set === 0) continue;
    const own = promise[place] ?? 0;
    const cured = blockCures[set] ?? 0;
    const spent = blockMinutes[set] ?? 0;
    if (own * spent <= cured) continue;
    const gain = (belief[repairs.cause[index] ?? 0] ?? 0) * (repairs.cures[index] ?? 0);
    blockCures[set] = cured + gain;
    blockMinutes[set] = spent + gain / own;
    inBlock[index] = 1;
  }
  for (let place = 0; place < count; place += 1) {
    const index = order[place] ?? 0;
    const set = block[index] ?? 0;
    const own = inBlock[index] === 1 ? (blockCures[set] ?? 0) / (blockMinutes[set] ?? 1) : promise[place];
    insert(index, own ?? 0, place);
  }
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

function repairsLeft(belief: ArrayLike<number>, minutes: readonly number[] | undefined): number {
  let sum = 0;
  for (let cause = 0; minutes !== undefined && cause < belief.length; cause += 1)
    sum += (minutes[cause] ?? 0) * (belief[cause] ?? 0);
  return sum;
}

/** Minutes that handing on at once costs, with what the repairs cost whoever takes over. */
export function costOfHandOff(belief: ArrayLike<number>, handOff: HandOff): number {
  for (let cause = 0; cause < belief.length; cause += 1) rest[cause] = belief[cause] ?? 0;
  return (
    handOff.minutes +
    handOff.blindMinutes * (1 - largestLeft(belief.length, handOff.suspects)) +
    repairsLeft(belief, handOff.repairMinutes)
  );
}

/**
 * Least expected minutes of the best-ordered repairs with the best point to hand off:
 * Σ minutes × P(not cured before) + P(not cured) × hand-off.
 * @param belief probability of each cause, summing to one; at most 256 causes.
 * @param setUpMinutes minutes of every set of set-ups, see `setUpTable`.
 * @param open set-ups that are made already.
 * @param without a cause whose repair is left out; none where −1.
 */
export function expectedCostOfRepair(
  belief: ArrayLike<number>,
  repairs: RepairTable,
  setUpMinutes: Float64Array,
  open: SetUps,
  handOff: HandOff,
  without = -1,
): number {
  const { minutes, blindMinutes, suspects, repairMinutes } = handOff;
  const causes = belief.length;
  let best = costOfHandOff(belief, handOff);
  let toRepair = repairsLeft(belief, repairMinutes);
  let left = 1;
  let spent = 0;
  let made = open;
  const count = orderByPromise(belief, repairs, setUpMinutes, open, best, without);
  orderBlocks(count, belief, repairs, setUpMinutes);
  for (let place = 0; place < count; place += 1) {
    const index = order[place] ?? 0;
    const cause = repairs.cause[index] ?? 0;
    const weight = rest[cause] ?? 0;
    const needs = repairs.needs[index] ?? 0;
    const lookNeeds = repairs.lookNeeds[index] ?? 0;
    const own = repairs.minutes[index] ?? 0;
    const blind = own + (setUpMinutes[needs & ~made] ?? 0);
    const look = (repairs.lookMinutes[index] ?? 0) + (setUpMinutes[lookNeeds & ~made] ?? 0);
    const looks = look + (weight / left) * (own + (setUpMinutes[needs & ~(made | lookNeeds)] ?? 0));
    spent += left * Math.min(blind, looks);
    if (spent >= best) break;
    made = looks < blind ? made | lookNeeds : (made | needs) & (repairs.keeps[index] ?? 0);
    const cured = weight * (repairs.cures[index] ?? 0);
    rest[cause] = weight - cured;
    toRepair -= cured * (repairMinutes?.[cause] ?? 0);
    left -= cured;
    if (left <= 0) return Math.min(best, spent);
    // The last look at the three largest is dear; it is not needed where it could not lower the best.
    const sure = spent + left * minutes + toRepair;
    if (sure < best) best = Math.min(best, sure + blindMinutes * (left - largestLeft(causes, suspects)));
  }
  return best;
}
