/** Choosing the next step: the permitted check or repair with the least expected minutes to the end, in the safe order. */
import { nextStep } from '../calc/next-step.ts';
import type { CheckId, FaultId } from '../knowledge/ids.ts';
import type { Case } from './case.ts';
import type { CaseModel } from './model.ts';
import { secondLooks } from './second-look.ts';
import { termsOf } from './set-ups.ts';
import type { Situation } from './situation.ts';
import { mayDo, situationOf } from './situation.ts';

/** The step to come: what it takes here and now, and what its result is expected to save, both in minutes. */
export type Plan =
  | { kind: 'check'; check: CheckId; minutes: number; saving: number }
  | { kind: 'repair'; fault: FaultId; minutes: number; saving: number }
  | { kind: 'hand-off' };

/** The best step of a situation. */
function planIn({ outlook, checks, faults }: Situation): Plan {
  const { choice, prospect } = nextStep(outlook);
  if (choice.kind === 'hand-off' || prospect === undefined) return { kind: 'hand-off' };
  const { minutes, saving } = prospect;
  const check = checks[choice.index];
  const fault = faults[choice.index];
  if (choice.kind === 'check' && check !== undefined)
    return { kind: 'check', check: check.id, minutes, saving };
  if (choice.kind === 'repair' && fault !== undefined)
    return { kind: 'repair', fault: fault.id, minutes, saving };
  return { kind: 'hand-off' };
}

/** The situation with the checks that may be asked a second time as its only checks. */
function lookingAgain(situation: Situation, { events, setting }: Case): Situation {
  const again = secondLooks(events, situation.model).filter(({ check }) => mayDo(check, setting.role));
  const checks = again.map(({ check, likelihood }) => ({ ...termsOf(check), likelihood, answered: 1 }));
  return {
    ...situation,
    outlook: { ...situation.outlook, checks },
    checks: again.map(({ check }) => check),
  };
}

/**
 * The next step of a case. A step of a higher class is proposed only where none of a lower class still pays for
 * itself; the case is handed on only where no step, looked at two steps ahead, costs less, and no second look either.
 */
export function planOf(oneCase: Case, model?: CaseModel): Plan {
  const situation = situationOf(oneCase, model);
  const plan = planIn(situation);
  return plan.kind === 'hand-off' ? planIn(lookingAgain(situation, oneCase)) : plan;
}
