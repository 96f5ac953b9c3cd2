/** Which step comes next: a look one step ahead over all that is permitted, two steps ahead over the best few. */
import type { Choice, Outlook, Prospect, StepChoice } from './outlook.ts';
import {
  costToGo,
  handOffNow,
  highest,
  inSafeOrder,
  madeAfter,
  minutesOf,
  prospects,
  writeAnswered,
  writeFailed,
} from './outlook.ts';
import type { SetUps } from './block-sequence.ts';

/** How many steps are looked at two steps ahead. */
const LOOKED_AT = 5;
/** How many checks may come second, the most telling a minute first. */
const SECOND_CHECKS = 6;
/** How many repairs may come second, the most promising first. */
const SECOND_REPAIRS = 3;

/** What follows a first step: the belief after it, and what it made, used up and left. */
interface Second {
  belief: Float64Array;
  made: SetUps;
  first: StepChoice;
}

function isFirst({ first }: Second, kind: StepChoice['kind'], index: number): boolean {
  return first.kind === kind && first.index === index;
}

function causeTried(outlook: Outlook, { first }: Second): number {
  return first.kind === 'repair' ? (outlook.repairs[first.index]?.cause ?? -1) : -1;
}

/** Sum of the squared beliefs that a check is expected to leave: 1 where it tells the cause for sure. */
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

function squares(belief: ArrayLike<number>): number {
  let sum = 0;
  for (let cause = 0; cause < belief.length; cause += 1) sum += (belief[cause] ?? 0) ** 2;
  return sum;
}

/** The checks worth asking second. */
function secondChecks(outlook: Outlook, second: Second, highestClass: number): number[] {
  const before = squares(second.belief);
  const scores = outlook.checks.map((check, index) => {
    if (check.class > highestClass || isFirst(second, 'check', index)) return 0;
    const gain = concentration(second.belief, check.likelihood) - before;
    return (check.answered * gain) / minutesOf(check, second.made, outlook.setUpMinutes);
  });
  return highest(scores, SECOND_CHECKS);
}

function secondRepairs(outlook: Outlook, second: Second, highestClass: number): number[] {
  const scores = outlook.repairs.map((repair, index) => {
    const p = second.belief[repair.cause] ?? 0;
    const open = repair.class <= highestClass && p > repair.onlyAbove && !isFirst(second, 'repair', index);
    return open ? (p * repair.cures) / minutesOf(repair, second.made, outlook.setUpMinutes) : 0;
  });
  return highest(scores, SECOND_REPAIRS);
}

const after = { causes: 0, belief: new Float64Array(0) };

function bufferAfter(causes: number): Float64Array {
  if (after.causes !== causes) Object.assign(after, { causes, belief: new Float64Array(causes) });
  return after.belief;
}

function costOfSecondCheck(outlook: Outlook, second: Second, index: number, without: number): number {
  const check = outlook.checks[index];
  if (check === undefined) return Infinity;
  const into = bufferAfter(second.belief.length);
  const made = madeAfter(check, second.made);
  let answered = 0;
  for (const row of check.likelihood) {
    const probability = writeAnswered(second.belief, row, into);
    if (probability > 0) answered += probability * costToGo(outlook, into, made, without);
  }
  const unanswered = check.answered < 1 ? costToGo(outlook, second.belief, made, without) : 0;
  const minutes = minutesOf(check, second.made, outlook.setUpMinutes);
  return minutes + check.answered * answered + (1 - check.answered) * unanswered;
}

function costOfSecondRepair(outlook: Outlook, second: Second, index: number): number {
  const repair = outlook.repairs[index];
  if (repair === undefined) return Infinity;
  const into = bufferAfter(second.belief.length);
  const failed = writeFailed(second.belief, repair, into);
  const rest =
    failed > 0 ? failed * costToGo(outlook, into, madeAfter(repair, second.made), repair.cause) : 0;
  return minutesOf(repair, second.made, outlook.setUpMinutes) + rest;
}

/** Expected minutes to the end from a second step on, the best one taken. */
function costFromSecond(outlook: Outlook, second: Second, highestClass: number): number {
  const without = causeTried(outlook, second);
  let best = costToGo(outlook, second.belief, second.made, without);
  for (const index of secondChecks(outlook, second, highestClass))
    best = Math.min(best, costOfSecondCheck(outlook, second, index, without));
  if (without === -1)
    for (const index of secondRepairs(outlook, second, highestClass))
      best = Math.min(best, costOfSecondRepair(outlook, second, index));
  return best;
}

function costOfCheck(outlook: Outlook, index: number, highestClass: number): number {
  const check = outlook.checks[index];
  if (check === undefined) return Infinity;
  const made = madeAfter(check, outlook.made);
  const first = { kind: 'check', index } as const;
  const belief = new Float64Array(outlook.belief.length);
  let answered = 0;
  for (const row of check.likelihood) {
    const probability = writeAnswered(outlook.belief, row, belief);
    if (probability > 0)
      answered += probability * costFromSecond(outlook, { belief, made, first }, highestClass);
  }
  let unanswered = 0;
  if (check.answered < 1) {
    belief.set(outlook.belief);
    unanswered = costFromSecond(outlook, { belief, made, first }, highestClass);
  }
  const minutes = minutesOf(check, outlook.made, outlook.setUpMinutes);
  return minutes + check.answered * answered + (1 - check.answered) * unanswered;
}

function costOfRepair(outlook: Outlook, index: number, highestClass: number): number {
  const repair = outlook.repairs[index];
  if (repair === undefined) return Infinity;
  const belief = new Float64Array(outlook.belief.length);
  const failed = writeFailed(outlook.belief, repair, belief);
  const second = { belief, made: madeAfter(repair, outlook.made), first: { kind: 'repair', index } } as const;
  const rest = failed > 0 ? failed * costFromSecond(outlook, second, highestClass) : 0;
  return minutesOf(repair, outlook.made, outlook.setUpMinutes) + rest;
}

/** Expected minutes to the end if this step comes first, looked at two steps ahead. */
function costTwoAhead(outlook: Outlook, { choice }: Prospect, highestClass: number): number {
  return choice.kind === 'check'
    ? costOfCheck(outlook, choice.index, highestClass)
    : costOfRepair(outlook, choice.index, highestClass);
}

export interface Verdict {
  choice: Choice;
  /** The chosen step one step ahead; undefined for the hand-off. */
  prospect?: Prospect;
  /** Expected minutes to the end. */
  cost: number;
}

/**
 * The step with the least expected minutes to the end among those in the safe order, or the hand-off where none
 * costs less. The case is never handed on because of a look one step ahead alone.
 */
export function nextStep(outlook: Outlook): Verdict {
  const open = inSafeOrder(prospects(outlook));
  const highestClass = Math.max(0, ...open.map((prospect) => prospect.class));
  let best: Verdict = { choice: { kind: 'hand-off' }, cost: handOffNow(outlook) };
  for (const prospect of open.sort((a, b) => a.cost - b.cost).slice(0, LOOKED_AT)) {
    const cost = costTwoAhead(outlook, prospect, highestClass);
    if (cost < best.cost) best = { choice: prospect.choice, prospect, cost };
  }
  return best;
}
