/** What a person may do next in a case, and what each step would take them. */
import type { HandOff, RepairTable, TriedRepair } from '../calc/repair-sequence.ts';
import { tabled } from '../calc/repair-sequence.ts';
import type { CheckId, FaultId } from '../knowledge/ids.ts';
import type { Check, Fault, Pad, Role, Step } from '../knowledge/schema.ts';
import { checkById, TRADE } from '../knowledge/trade.ts';
import { beliefOf } from './belief.ts';
import type { Case, CaseEvent, Setting } from './case.ts';
import { checksDone, repairsDone } from './case.ts';
import type { CaseModel } from './model.ts';
import { modelOf } from './model.ts';
import { padAfter } from './pad.ts';

/** The highest class of step that each role may be led through. */
const HIGHEST_CLASS: Record<Role, number> = { owner: 2, technician: 3 };
/** How likely a fault must be before a repair that uses up a part is proposed for it. */
const LIKELY: Record<Role, number> = { owner: 0.5, technician: 0.2 };
/** The same where a look at the very thing found nothing wrong: to repair it all the same takes a strong suspicion. */
const LIKELY_ALL_THE_SAME = 0.2;
/** A fault below this probability is no reason to try anything. */
const NEGLIGIBLE = 2e-4;
/** How many suspects a hand-off names. */
const SUSPECTS_HANDED_ON = 3;

/** A check and what it takes here and now, minutes. */
interface OpenCheck {
  check: Check;
  minutes: number;
}

export interface OpenRepair extends TriedRepair {
  fault: Fault;
  /** The quickest check that would show whether the fault is there. */
  look: OpenCheck | undefined;
}

/** Everything the choice of one step is made from. */
export interface Situation {
  model: CaseModel;
  setting: Setting;
  belief: readonly number[];
  checks: readonly OpenCheck[];
  repairs: readonly OpenRepair[];
  /** The same repairs as columns. */
  table: RepairTable;
  handOff: HandOff;
}

/** Whether a person in this role may be led through the step. */
export function mayDo(step: Pick<Step, 'class'>, role: Role): boolean {
  return step.class <= HIGHEST_CLASS[role];
}

/** Whether a person in this role may repair the fault. */
export function mayRepair(fault: Fault, role: Role): boolean {
  return fault.who.includes(role) && mayDo(fault.repair, role);
}

/** Minutes of the step itself and of bringing the pad to what it needs. */
function minutesOf(step: Pick<Step, 'needs' | 'minutes'>, pad: Pad, { costs }: Setting): number {
  const pumpOff = step.needs.pump === 'off' && pad.pump !== 'off' ? costs.pumpOffAndOn : 0;
  const lidOpen = step.needs.lid === 'open' && pad.lid !== 'open' ? costs.lidOpenAndShut : 0;
  const hoseOut = step.needs.hose === 'out' && pad.hose !== 'out' ? costs.hoseOutAndBack : 0;
  return step.minutes + pumpOff + lidOpen + hoseOut;
}

/** A check reveals a fault whose presence turns its usual outcome into another by at least these odds. */
const REVEALING = 0.75;

/** The checks that reveal each fault by themselves. */
const REVEALED_BY: ReadonlyMap<FaultId, readonly CheckId[]> = new Map(
  TRADE.faults.map(({ id }) => {
    const reveals = ({ given }: Check): boolean => {
      const row = given.find(({ faults }) => faults.includes(id));
      return row !== undefined && row.faults.length === 1 && (row.outcomes[0] ?? 1) < 1 - REVEALING;
    };
    return [id, TRADE.checks.filter(reveals).map((check) => check.id)];
  }),
);

/** The quickest look among these checks that reveals a fault. */
function quickestLook(fault: FaultId, checks: readonly OpenCheck[]): OpenCheck | undefined {
  const revealing = REVEALED_BY.get(fault) ?? [];
  const [quickest] = checks
    .filter(({ check }) => revealing.includes(check.id))
    .sort((a, b) => a.minutes - b.minutes);
  return quickest;
}

function openChecks({ setting, events }: Case, model: CaseModel, pad: Pad): OpenCheck[] {
  const done = checksDone(events);
  return model.checks
    .filter(
      (check) => mayDo(check, setting.role) && !done.has(check.id) && !setting.missing.includes(check.id),
    )
    .map((check) => ({ check, minutes: minutesOf(check, pad, setting) }));
}

/** Faults that a look at the very thing did not find. */
function faultsDenied(events: readonly CaseEvent[]): Set<FaultId> {
  const normal = new Set(
    events.flatMap((event) =>
      event.kind === 'answer' && checkById(event.check).outcomes[0] === event.outcome ? [event.check] : [],
    ),
  );
  return new Set(
    [...REVEALED_BY]
      .filter(([, checks]) => checks.some((check) => normal.has(check)))
      .map(([fault]) => fault),
  );
}

function openRepairs(
  { setting, events }: Case,
  model: CaseModel,
  pad: Pad,
  checks: readonly OpenCheck[],
): OpenRepair[] {
  const tried = repairsDone(events);
  const denied = faultsDenied(events);
  return model.faults.flatMap((fault, cause) => {
    if (fault === undefined || !mayRepair(fault, setting.role) || tried.has(fault.id)) return [];
    const { cures, part } = fault.repair;
    const minutes = minutesOf(fault.repair, pad, setting);
    const onlyAbove = Math.max(
      part ? LIKELY[setting.role] : NEGLIGIBLE,
      denied.has(fault.id) ? LIKELY_ALL_THE_SAME : 0,
    );
    const look = quickestLook(fault.id, checks);
    return [{ cause, minutes, cures, lookMinutes: look?.minutes ?? Infinity, onlyAbove, fault, look }];
  });
}

/** The situation of a case after its events. */
export function situationOf(oneCase: Case): Situation {
  const { setting, events } = oneCase;
  const model = modelOf(setting);
  const pad = padAfter(events);
  const checks = openChecks(oneCase, model, pad);
  const repairs = openRepairs(oneCase, model, pad, checks);
  return {
    model,
    setting,
    belief: beliefOf(oneCase, model),
    checks,
    repairs,
    table: tabled(repairs),
    handOff: {
      minutes: setting.costs.handOff[setting.role],
      blindMinutes: setting.costs.blindVisit,
      suspects: SUSPECTS_HANDED_ON,
      repairMinutes: model.faults.map((fault) => fault?.repair.minutes ?? 0),
    },
  };
}
