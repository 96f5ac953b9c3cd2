/** What may be done next and what each step is expected to lead to, in numbers alone. Costs are minutes. */
import type { HandOff, RepairTable, SetUps, TriedRepair } from './block-sequence.ts';
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

/** Whether a step saves more than it takes. */
export function paysForItself({ saving, minutes }: Prospect): boolean {
  return saving > minutes;
}

/** The indices with the highest scores above 0, at most `most` of them, highest first. */
function highest(scores: readonly number[], most: number): number[] {
  return scores
    .flatMap((score, index) => (score > 0 ? [index] : []))
    .sort((a, b) => (scores[b] ?? 0) - (scores[a] ?? 0))
    .slice(0, most);
}

/** How many repairs are looked at, the most promising first. */
const REPAIRS_LOOKED_AT = 10;

/** The repairs worth a look: by probability of cure over minutes. */
function promising({ belief, repairs, made, setUpMinutes }: Outlook): number[] {
  const promise = repairs.map((repair) => {
    const p = belief[repair.cause] ?? 0;
    return p > repair.onlyAbove ? (p * repair.cures) / minutesOf(repair, made, setUpMinutes) : 0;
  });
  return highest(promise, REPAIRS_LOOKED_AT);
}

/** Sum of the squared beliefs that an answer is expected to leave: 1 where it tells the cause for sure. */
function concentration(belief: ArrayLike<number>, likelihood: readonly (readonly number[])[]): number {
  let sum = 0;
  for (const row of likelihood) {
    let probability = 0;
    let squares = 0;
    for (let cause = 0; cause < belief.length; cause += 1) {
      const weight = (belief[cause] ?? 0) * (row[cause] ?? 0);
      probability += weight;
      squares += weight * weight;
    }
    if (probability > 0) sum += squares / probability;
  }
  return sum;
}

/** The checks that tell most a minute, at most `most` of them. */
function telling({ belief, checks, made, setUpMinutes }: Outlook, most: number): number[] {
  if (checks.length <= most) return checks.map((_, index) => index);
  let before = 0;
  for (let cause = 0; cause < belief.length; cause += 1) before += (belief[cause] ?? 0) ** 2;
  const scores = checks.map(
    (check) =>
      (check.answered * (concentration(belief, check.likelihood) - before)) /
      minutesOf(check, made, setUpMinutes),
  );
  return highest(scores, most);
}

export interface Permitted {
  /** No step of a higher class may come next. */
  highestClass: number;
  prospects: readonly Prospect[];
}

/**
 * The safe order: as long as a step of a lower class pays for itself, none of a higher class is thought of, whatever
 * it would save. With `mostChecks` only so many checks are looked at, those that tell most a minute.
 */
export function inSafeOrder(outlook: Outlook, mostChecks = Infinity): Permitted {
  const toGo = costToGo(outlook, outlook.belief, outlook.made);
  const checks = telling(outlook, mostChecks);
  const repairs = promising(outlook);
  const classes = [...outlook.checks, ...outlook.repairs].map((step) => step.class);
  const sofar: Prospect[] = [];
  for (const one of [...new Set(classes)].sort((a, b) => a - b)) {
    const found = [
      ...checks
        .filter((index) => outlook.checks[index]?.class === one)
        .map((index) => checkProspect(outlook, index, toGo)),
      ...repairs
        .filter((index) => outlook.repairs[index]?.class === one)
        .map((index) => repairProspect(outlook, index)),
    ].filter((prospect) => prospect !== undefined);
    sofar.push(...found);
    if (found.some(paysForItself)) return { highestClass: one, prospects: sofar };
  }
  return { highestClass: Math.max(0, ...classes), prospects: sofar };
}
