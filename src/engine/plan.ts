/** Choosing the next step: the permitted check or repair with the least expected minutes to the end, in the safe order. */
import { nextStep } from '../calc/next-step.ts';
import { minutesOf } from '../calc/outlook.ts';
import type { CheckId, FaultId } from '../knowledge/ids.ts';
import type { Check } from '../knowledge/schema.ts';
import { checkById } from '../knowledge/trade.ts';
import type { Case } from './case.ts';
import type { CaseModel } from './model.ts';
import { REVEALED_BY } from './revealing.ts';
import { putTwice, secondLooks } from './second-look.ts';
import { termsOf } from './set-ups.ts';
import type { Situation } from './situation.ts';
import { foundNormal, mayDo, situationOf } from './situation.ts';
import { answerToAskAgain } from './surprise.ts';

/** The step to come: what it takes here and now, and what its result is expected to save, both in minutes. */
export type Plan =
  | { kind: 'check'; check: CheckId; minutes: number; saving: number }
  | { kind: 'repair'; fault: FaultId; minutes: number; saving: number }
  | { kind: 'hand-off' };

/** A suspect less likely than this is looked at before it is repaired, where the look takes half the time or less. */
const BEYOND_DOUBT = 0.9;

/**
 * A repair is not tried blind where a look tells at less cost whether its fault is there, or at little cost while there
 * is doubt: then the look comes first, if it is of no higher class.
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
  const toLook = minutesOf(terms, made, setUpMinutes);
  const p = belief[repair.cause] ?? 0;
  const found = p * minutesOf(repair, made | terms.needs, setUpMinutes);
  return toLook + found < blind || (p < BEYOND_DOUBT && 2 * toLook <= blind) ? look : undefined;
}

/** A plan, and the class above which nothing may come now. */
interface Planned {
  plan: Plan;
  highestClass: number;
}

/** The best step of a situation. */
function planIn(situation: Situation): Planned {
  const { outlook, checks, faults } = situation;
  const { choice, prospect, highestClass } = nextStep(outlook);
  if (choice.kind === 'hand-off' || prospect === undefined)
    return { plan: { kind: 'hand-off' }, highestClass };
  const { minutes, saving } = prospect;
  const check = choice.kind === 'check' ? checks[choice.index] : lookFirst(situation, choice.index);
  if (check !== undefined)
    return { plan: { kind: 'check', check: check.id, minutes, saving }, highestClass: check.class };
  const fault = faults[choice.index];
  if (fault === undefined) return { plan: { kind: 'hand-off' }, highestClass };
  const plan = { kind: 'repair', fault: fault.id, minutes, saving } as const;
  return { plan, highestClass: fault.repair.class };
}

/** The situation with the checks that may be asked a second time as its only checks. */
function lookingAgain(situation: Situation, { events, setting }: Case, highestClass: number): Situation {
  const again = secondLooks(events, situation.model).filter(
    ({ check }) => check.class <= highestClass && mayDo(check, setting.role),
  );
  const checks = again.map(({ check, likelihood, answered }) => ({
    ...termsOf(check),
    likelihood,
    answered,
  }));
  return {
    ...situation,
    outlook: { ...situation.outlook, checks },
    checks: again.map(({ check }) => check),
  };
}

/** The same look once more, where it exposes the person no more than what may come next. */
function onceMore(
  check: Check,
  { setting }: Case,
  { outlook }: Situation,
  highestClass: number,
): Plan | undefined {
  if (check.class > highestClass || !mayDo(check, setting.role)) return undefined;
  const minutes = minutesOf(termsOf(check), outlook.made, outlook.setUpMinutes);
  return { kind: 'check', check: check.id, minutes, saving: 0 };
}

/** An answer that hardly fits is asked again before anything that exposes the person as much or more. */
function askingAgain(oneCase: Case, situation: Situation, highestClass: number): Plan | undefined {
  const again = answerToAskAgain(oneCase, situation.model, situation.belief);
  return again && onceMore(checkById(again.check), oneCase, situation, highestClass);
}

/** Before a repair of what a look denied, that look once more: it is quicker, and it may have been the slip. */
function lookingBefore(
  fault: FaultId,
  oneCase: Case,
  situation: Situation,
  highestClass: number,
): Plan | undefined {
  const normal = foundNormal(oneCase.events);
  const twice = putTwice(oneCase.events);
  const [look] = (REVEALED_BY.get(fault) ?? [])
    .filter((id) => normal.has(id) && !twice.has(id))
    .flatMap((id) => onceMore(checkById(id), oneCase, situation, highestClass) ?? []);
  return look;
}

/**
 * The next step of a case. A step of a higher class is proposed only where none of a lower class still pays for
 * itself; the case is handed on only where no step, looked at two steps ahead, costs less, and no second look either.
 * A check may come a second time, where its answer hardly fits the rest, where what it denied is to be repaired all the
 * same, or where the case is about to be handed on; never a third. By another model than the case's own only to try
 * what that would change.
 */
export function planOf(oneCase: Case, model?: CaseModel): Plan {
  const situation = situationOf(oneCase, model);
  const { plan, highestClass } = planIn(situation);
  const again = askingAgain(oneCase, situation, highestClass);
  if (again !== undefined) return again;
  if (plan.kind === 'repair') return lookingBefore(plan.fault, oneCase, situation, highestClass) ?? plan;
  if (plan.kind === 'check') return plan;
  const last = planIn(lookingAgain(situation, oneCase, highestClass)).plan;
  return last.kind === 'check' ? last : plan;
}
