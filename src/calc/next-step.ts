/** Which step comes next: a look one step ahead over all that is permitted, two steps ahead over the best few. */
import { tabled } from './repair-table.ts';
import type { Choice, Outlook, Prospect, StepChoice } from './outlook.ts';
import { handOffNow, madeAfter, minutesOf, writeAnswered, writeFailed } from './outlook.ts';
import { inSafeOrder } from './safe-order.ts';

/** How many steps are looked at two steps ahead. */
const LOOKED_AT = 5;
/** How many checks may come second, those that tell most a minute. */
const SECOND_CHECKS = 6;

function without<T>(list: readonly T[], left: number): T[] {
  return list.filter((_, index) => index !== left);
}

/** What can be done once a step was done and led to this belief. */
function afterStep(outlook: Outlook, { kind, index }: StepChoice, belief: Float64Array): Outlook {
  const step = kind === 'check' ? outlook.checks[index] : outlook.repairs[index];
  const made = step === undefined ? outlook.made : madeAfter(step, outlook.made);
  if (kind === 'check') return { ...outlook, belief, made, checks: without(outlook.checks, index) };
  const repairs = without(outlook.repairs, index);
  return { ...outlook, belief, made, repairs, table: tabled(repairs) };
}

/** Expected minutes to the end if the best step comes next, by a look one step ahead; or if the case is handed on. */
function costOneAhead(outlook: Outlook): number {
  const { prospects } = inSafeOrder(outlook, SECOND_CHECKS);
  return Math.min(handOffNow(outlook), ...prospects.map(({ cost }) => cost));
}

function costOfCheck(outlook: Outlook, choice: StepChoice): number {
  const check = outlook.checks[choice.index];
  if (check === undefined) return Infinity;
  let answered = 0;
  for (const row of check.likelihood) {
    const belief = new Float64Array(outlook.belief.length);
    const probability = writeAnswered(outlook.belief, row, belief);
    if (probability > 0) answered += probability * costOneAhead(afterStep(outlook, choice, belief));
  }
  const unanswered =
    check.answered < 1 ? costOneAhead(afterStep(outlook, choice, Float64Array.from(outlook.belief))) : 0;
  const minutes = minutesOf(check, outlook.made, outlook.setUpMinutes);
  return minutes + check.answered * answered + (1 - check.answered) * unanswered;
}

function costOfRepair(outlook: Outlook, choice: StepChoice): number {
  const repair = outlook.repairs[choice.index];
  if (repair === undefined) return Infinity;
  const belief = new Float64Array(outlook.belief.length);
  const failed = writeFailed(outlook.belief, repair, belief);
  const rest = failed > 0 ? failed * costOneAhead(afterStep(outlook, choice, belief)) : 0;
  return minutesOf(repair, outlook.made, outlook.setUpMinutes) + rest;
}

export interface Verdict {
  choice: Choice;
  /** The chosen step one step ahead; undefined for the hand-off. */
  prospect?: Prospect;
  /** Expected minutes to the end. */
  cost: number;
  /** No step of a higher class may come next. */
  highestClass: number;
}

/**
 * The step with the least expected minutes to the end among those in the safe order, or the hand-off where none
 * costs less. The case is never handed on because of a look one step ahead alone.
 */
export function nextStep(outlook: Outlook): Verdict {
  const { prospects, highestClass } = inSafeOrder(outlook);
  let best: Verdict = { choice: { kind: 'hand-off' }, cost: handOffNow(outlook), highestClass };
  for (const prospect of [...prospects].sort((a, b) => a.cost - b.cost).slice(0, LOOKED_AT)) {
    const { choice } = prospect;
    const cost = choice.kind === 'check' ? costOfCheck(outlook, choice) : costOfRepair(outlook, choice);
    if (cost < best.cost) best = { choice, prospect, cost, highestClass };
  }
  return best;
}
