/** Choosing the next step: the permitted check or repair with the least expected minutes to the end, in the safe order. */
import { nextStep } from '../calc/next-step.ts';
import { minutesOf } from '../calc/outlook.ts';
import type { CheckId, FaultId } from '../knowledge/ids.ts';
import type { Check } from '../knowledge/schema.ts';
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

/**
 * A repair is not tried blind where a look tells at less cost whether its fault is there: then the look comes first,
 * if it is of no higher class.
 */
function lookFirst({ outlook, faults, looks, checks }: Situation, index: number): Check | undefined {
  const repair = outlook.repairs[index];
  const fault = faults[index];
  const look = fault && looks.get(fault.id);
  if (repair === undefined || look === undefined || look.class > repair.class) return undefined;
  if (!checks.includes(look)) return undefined;
  const { made, setUpMinutes, belief } = outlook;
  const blind = minutesOf(repair, made, setUpMinutes);
  const terms = termsOf(look);
  const found = (belief[repair.cause] ?? 0) * minutesOf(repair, made | terms.needs, setUpMinutes);
  return minutesOf(terms, made, setUpMinutes) + found < blind ? look : undefined;
}

/** The best step of a situation. */
function planIn(situation: Situation): Plan {
  const { outlook, checks, faults } = situation;
  const { choice, prospect } = nextStep(outlook);
  if (choice.kind === 'hand-off' || prospect === undefined) return { kind: 'hand-off' };
  const { minutes, saving } = prospect;
  const check = choice.kind === 'check' ? checks[choice.index] : lookFirst(situation, choice.index);
  if (check !== undefined) return { kind: 'check', check: check.id, minutes, saving };
  const fault = faults[choice.index];
  return fault === undefined ? { kind: 'hand-off' } : { kind: 'repair', fault: fault.id, minutes, saving };
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
