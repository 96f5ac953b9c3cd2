/** What may be done next and what each step is expected to lead to, in numbers alone. Costs are minutes. */
import type { HandOff, RepairTable, SetUps, TriedRepair } from './repair-table.ts';
import { costOfHandOff, expectedCostOfRepair } from './block-sequence.ts';

/** A step's own minutes, how much it exposes the person, the set-ups it needs and those that it leaves as they are. */
export interface StepTerms {
  minutes: number;
  class: number;
  needs: SetUps;
  keeps: SetUps;
}

export interface OpenCheck extends StepTerms {
  /** Probability of each outcome (row) under each cause (column). */
  likelihood: readonly (readonly number[])[];
  /** Probability that it can be answered at all, 0 to 1. */
  answered: number;
}

export type OpenRepair = TriedRepair;

/** A case as far as the choice of its next step goes. */
export interface Outlook {
  /** Probability of each cause, summing to one; at most 256 causes. */
  belief: ArrayLike<number>;
  checks: readonly OpenCheck[];
  repairs: readonly OpenRepair[];
  /** The same repairs as columns. */
  table: RepairTable;
  /** Set-ups that are made now. */
  made: SetUps;
  /** Minutes of every set of set-ups, see `setUpTable`. */
  setUpMinutes: Float64Array;
  handOff: HandOff;
}

export type Choice = { kind: 'check' | 'repair'; index: number } | { kind: 'hand-off' };
export type StepChoice = Exclude<Choice, { kind: 'hand-off' }>;

/** A step with what it is expected to cost and save. */
export interface Prospect {
  choice: StepChoice;
  class: number;
  /** Minutes of the step here and now, with the set-ups still to be made. */
  minutes: number;
  /** Minutes that its result saves of what is to come. */
  saving: number;
  /** Expected minutes to the end if this comes next. */
  cost: number;
}

/** Minutes of a step where these set-ups are made. */
export function minutesOf(
  { minutes, needs }: Pick<StepTerms, 'minutes' | 'needs'>,
  made: SetUps,
  setUpMinutes: Float64Array,
): number {
  return minutes + (setUpMinutes[needs & ~made] ?? 0);
}

/** The set-ups that are made after a step. */
export function madeAfter({ needs, keeps }: Pick<StepTerms, 'needs' | 'keeps'>, made: SetUps): SetUps {
  return (made | needs) & keeps;
}

/**
 * Writes the belief after an answer into `into` and returns the answer's probability; where that is 0 nothing
 * sensible is written.
 */
export function writeAnswered(
  belief: ArrayLike<number>,
  likelihood: readonly number[],
  into: Float64Array,
): number {
  let sum = 0;
  for (let cause = 0; cause < belief.length; cause += 1) {
    const weight = (belief[cause] ?? 0) * (likelihood[cause] ?? 0);
    into[cause] = weight;
    sum += weight;
  }
  if (sum > 0) for (let cause = 0; cause < belief.length; cause += 1) into[cause] = (into[cause] ?? 0) / sum;
  return sum;
}

/** Writes the belief after a repair that did not help into `into` and returns the probability of that. */
export function writeFailed(
  belief: ArrayLike<number>,
  { cause, cures }: Pick<TriedRepair, 'cause' | 'cures'>,
  into: Float64Array,
): number {
  const failed = 1 - (belief[cause] ?? 0) * cures;
  for (let other = 0; other < belief.length; other += 1) into[other] = (belief[other] ?? 0) / failed;
  into[cause] = ((belief[cause] ?? 0) * (1 - cures)) / failed;
  return failed;
}

/** Expected minutes to the end, going on with repairs and the hand-off alone. */
export function costToGo(outlook: Outlook, belief: ArrayLike<number>, made: SetUps, without = -1): number {
  const { table, setUpMinutes, handOff } = outlook;
  return expectedCostOfRepair(belief, table, setUpMinutes, made, handOff, without);
}

/** Minutes of handing on at once. */
export function handOffNow(outlook: Outlook): number {
  return costOfHandOff(outlook.belief, outlook.handOff);
}

const scratch = new Map<number, Float64Array>();

/** A buffer for a belief over so many causes, overwritten by whoever asks next. */
function buffer(causes: number): Float64Array {
  const known = scratch.get(causes) ?? new Float64Array(causes);
  scratch.set(causes, known);
  return known;
}

/** What a check leads to one step on; `toGo` is what is to come without it. */
export function checkProspect(outlook: Outlook, index: number, toGo: number): Prospect | undefined {
  const check = outlook.checks[index];
  if (check === undefined) return undefined;
  const made = madeAfter(check, outlook.made);
  const after = buffer(outlook.belief.length);
  let withAnswer = 0;
  for (const likelihood of check.likelihood) {
    const probability = writeAnswered(outlook.belief, likelihood, after);
    if (probability > 0) withAnswer += probability * costToGo(outlook, after, made);
  }
  const unanswered = check.answered < 1 ? costToGo(outlook, outlook.belief, made) : 0;
  const afterwards = check.answered * withAnswer + (1 - check.answered) * unanswered;
  const minutes = minutesOf(check, outlook.made, outlook.setUpMinutes);
  return {
    choice: { kind: 'check', index },
    class: check.class,
    minutes,
    saving: toGo - afterwards,
    cost: minutes + afterwards,
  };
}

/** What a repair leads to one step on. It saves against never trying it. */
export function repairProspect(outlook: Outlook, index: number): Prospect | undefined {
  const repair = outlook.repairs[index];
  if (repair === undefined) return undefined;
  const after = buffer(outlook.belief.length);
  const failed = writeFailed(outlook.belief, repair, after);
  const toGo = costToGo(outlook, outlook.belief, outlook.made, repair.cause);
  const afterwards =
    failed > 0 ? failed * costToGo(outlook, after, madeAfter(repair, outlook.made), repair.cause) : 0;
  const minutes = minutesOf(repair, outlook.made, outlook.setUpMinutes);
  return {
    choice: { kind: 'repair', index },
    class: repair.class,
    minutes,
    saving: toGo - afterwards,
    cost: minutes + afterwards,
  };
}
