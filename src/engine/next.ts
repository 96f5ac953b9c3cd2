/** What comes next in a case: a caution still due, a check, a repair, or the hand-off. */
import type { CautionId, CheckId, FaultId } from '../knowledge/ids.ts';
import type { PadChange, Step } from '../knowledge/schema.ts';
import { checkById, faultById } from '../knowledge/trade.ts';
import type { Case } from './case.ts';
import { isAnswer } from './case.ts';
import { cautionsDue } from './pad.ts';
import type { Plan } from './plan.ts';
import { planOf } from './plan.ts';
import { recently } from './recently.ts';

export type NextStep = { kind: 'check'; check: CheckId } | { kind: 'repair'; fault: FaultId };
export type Next =
  NextStep | { kind: 'caution'; caution: CautionId; brings: PadChange } | { kind: 'hand-off' };

/** The exposure, cautions and needs of a step. */
export function stepData(step: NextStep): Step {
  return step.kind === 'check' ? checkById(step.check) : faultById(step.fault).repair;
}

/** Pools alike with the same answers are led alike, and a turn asks for its own step more than once. */
const recentPlan = recently<Case, Plan>(
  2000,
  (oneCase) => planOf(oneCase),
  ({ setting, events }) => JSON.stringify([setting, events.map((event) => ({ ...event, at: 0 }))]),
);

/** The step planned from what is known; acknowledging a caution does not change the plan it belongs to. */
export function plannedStep(oneCase: Case): NextStep | undefined {
  const lastAnswer = oneCase.events.findLastIndex(isAnswer);
  const plan = recentPlan({ ...oneCase, events: oneCase.events.slice(0, lastAnswer + 1) });
  if (plan.kind === 'hand-off') return undefined;
  return plan.kind === 'check' ? { kind: 'check', check: plan.check } : { kind: 'repair', fault: plan.fault };
}

/** What to put to the person before this step, or the step itself once nothing is due. */
export function cautionOrStep(step: NextStep, oneCase: Case): Exclude<Next, { kind: 'hand-off' }> {
  const [due] = cautionsDue(stepData(step), oneCase.events, oneCase.setting.equipment);
  return due === undefined ? step : { kind: 'caution', ...due };
}
