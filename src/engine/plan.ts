/** Choosing the next step: the permitted check or repair with the least expected cost of repair, inside the safe order. */
import { afterFailedRepair, updated } from '../calc/belief.ts';
import type { HandOff, TriedRepair } from '../calc/repair-sequence.ts';
import { expectedCostOfRepair } from '../calc/repair-sequence.ts';
import type { CheckId, FaultId } from '../knowledge/ids.ts';
import type { Check, Fault, Pad, Role, Step } from '../knowledge/schema.ts';
import { beliefOf } from './belief.ts';
import type { Case, Setting } from './case.ts';
import { checksDone, repairsDone } from './case.ts';
import type { CaseModel } from './model.ts';
import { modelOf, outcomeProbabilities, tellingOutcomes } from './model.ts';
import { padAfter } from './pad.ts';

/** The highest class of step that each role may be led through. */
const HIGHEST_CLASS: Record<Role, number> = { owner: 2, technician: 3 };
/** How likely a fault must be before a repair that uses up a part is proposed for it. */
const LIKELY: Record<Role, number> = { owner: 0.5, technician: 0.2 };
/** How many suspects a hand-off names. */
const SUSPECTS_HANDED_ON = 3;

export type Plan =
  | { kind: 'check'; check: CheckId; minutes: number; saving: number }
  | { kind: 'repair'; fault: FaultId; minutes: number; saving: number }
  | { kind: 'hand-off' };

/** Everything the choice of one step is made from. */
interface Situation {
  model: CaseModel;
  setting: Setting;
  belief: readonly number[];
  pad: Pad;
  checks: readonly Check[];
  repairs: readonly (TriedRepair & { fault: Fault })[];
  handOff: HandOff;
}

/** Whether a person in this role may be led through the step. */
export function mayDo(step: Step, role: Role): boolean {
  return step.class <= HIGHEST_CLASS[role];
}

/** Whether a person in this role may repair the fault. */
export function mayRepair(fault: Fault, role: Role): boolean {
  return fault.who.includes(role) && mayDo(fault.repair, role);
}

/** Minutes of the step itself and of bringing the pad to what it needs. */
function minutesOf(step: Step, pad: Pad, setting: Setting): number {
  const { costs } = setting;
  const pumpOff = step.needs.pump === 'off' && pad.pump !== 'off' ? costs.pumpOffAndOn : 0;
  const lidOpen = step.needs.lid === 'open' && pad.lid !== 'open' ? costs.lidOpenAndShut : 0;
  const hoseOut = step.needs.hose === 'out' && pad.hose !== 'out' ? costs.hoseOutAndBack : 0;
  return step.minutes + pumpOff + lidOpen + hoseOut;
}

function situationOf(oneCase: Case): Situation {
  const { setting, events } = oneCase;
  const model = modelOf(setting);
  const pad = padAfter(events);
  const answered = checksDone(events);
  const tried = repairsDone(events);
  const repairs = model.faults.flatMap((fault, cause) =>
    fault !== undefined && mayRepair(fault, setting.role) && !tried.has(fault.id)
      ? [{ fault, cause, minutes: minutesOf(fault.repair, pad, setting), cures: fault.repair.cures }]
      : [],
  );
  return {
    model,
    setting,
    belief: beliefOf(oneCase, model),
    pad,
    checks: model.checks.filter(
      ({ id, ...check }) => mayDo(check, setting.role) && !answered.has(id) && !setting.missing.includes(id),
    ),
    repairs,
    handOff: {
      minutes: setting.costs.handOff[setting.role],
      blindMinutes: setting.costs.blindVisit,
      suspects: SUSPECTS_HANDED_ON,
      repairMinutes: model.faults.map((fault) => fault?.repair.minutes ?? 0),
    },
  };
}

/** Expected minutes to the end from a belief, going on with repairs and the hand-off alone. */
function costToGo(belief: readonly number[], situation: Situation, without?: FaultId): number {
  const open = situation.repairs.filter(
    ({ fault, cause }) =>
      fault.id !== without && (!fault.repair.part || (belief[cause] ?? 0) > LIKELY[situation.setting.role]),
  );
  return expectedCostOfRepair(belief, open, situation.handOff);
}

interface Candidate {
  plan: Exclude<Plan, { kind: 'hand-off' }>;
  class: number;
  /** Expected minutes to the end if this comes next. */
  cost: number;
}

function checkCandidate(check: Check, toGo: number, situation: Situation): Candidate {
  const { model, setting, belief } = situation;
  const minutes = minutesOf(check, situation.pad, setting);
  const byFault = model.faults.map((fault) => outcomeProbabilities(check, fault, setting));
  let afterwards = 0;
  for (let outcome = 0; outcome < tellingOutcomes(check).length; outcome += 1) {
    const likelihood = byFault.map((row) => row[outcome] ?? 0);
    const probability = belief.reduce((sum, p, cause) => sum + p * (likelihood[cause] ?? 0), 0);
    if (probability > 0) afterwards += probability * costToGo(updated(belief, likelihood), situation);
  }
  const plan = { kind: 'check', check: check.id, minutes, saving: toGo - afterwards } as const;
  return { plan, class: check.class, cost: minutes + afterwards };
}

function repairCandidate(repair: Situation['repairs'][number], situation: Situation): Candidate {
  const { belief } = situation;
  const { fault, cause, minutes, cures } = repair;
  const cured = (belief[cause] ?? 0) * cures;
  const failed = afterFailedRepair(belief, cause, cures);
  const afterwards = (1 - cured) * costToGo(failed, situation, fault.id);
  const saving = costToGo(belief, situation, fault.id) - afterwards;
  return {
    plan: { kind: 'repair', fault: fault.id, minutes, saving },
    class: fault.repair.class,
    cost: minutes + afterwards,
  };
}

function paysForItself({ plan }: Candidate): boolean {
  return plan.saving > plan.minutes;
}

function candidatesOf(situation: Situation): Candidate[] {
  const toGo = costToGo(situation.belief, situation);
  const repairs = situation.repairs.filter(
    ({ fault, cause }) =>
      !fault.repair.part || (situation.belief[cause] ?? 0) > LIKELY[situation.setting.role],
  );
  return [
    ...situation.checks.map((check) => checkCandidate(check, toGo, situation)),
    ...repairs.map((repair) => repairCandidate(repair, situation)),
  ];
}

/**
 * The next step of a case. A step of a higher class is proposed only where none of a lower class still pays for
 * itself; among those of the lowest class that do, the one with the least expected cost.
 */
export function planOf(oneCase: Case): Plan {
  const paying = candidatesOf(situationOf(oneCase)).filter(paysForItself);
  const lowest = Math.min(...paying.map((candidate) => candidate.class));
  const [best] = paying.filter((candidate) => candidate.class === lowest).sort((a, b) => a.cost - b.cost);
  return best?.plan ?? { kind: 'hand-off' };
}
