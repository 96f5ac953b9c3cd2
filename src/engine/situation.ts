/** What a person may do next in a case, and what each step would take them. */
import type { HandOff, TriedRepair } from '../calc/repair-table.ts';
import { tabled } from '../calc/repair-table.ts';
import type { OpenCheck, Outlook } from '../calc/outlook.ts';
import type { CheckId, FaultId, Quantity } from '../knowledge/ids.ts';
import type { Check, Fault, Role, Step } from '../knowledge/schema.ts';
import { checkById } from '../knowledge/trade.ts';
import { beliefOf, latestOf } from './belief.ts';
import type { Case, CaseEvent, Setting } from './case.ts';
import { checksDone, repairsDone } from './case.ts';
import type { CaseModel } from './model.ts';
import { modelOf } from './model.ts';
import { REVEALED_BY } from './revealing.ts';
import { withoutExplained } from './second-fault.ts';
import { putTwice } from './second-look.ts';
import { padAfter } from './pad.ts';
import { minutesOfSetUps, setUpsOf, termsOf } from './set-ups.ts';

/** The highest class of step that each role may be led through. */
const HIGHEST_CLASS: Record<Role, number> = { owner: 2, technician: 3 };
/** How likely a fault must be before a repair that uses up a part is proposed for it. */
const LIKELY: Record<Role, number> = { owner: 0.5, technician: 0.1 };
/**
 * The same where a look at the very thing found nothing wrong: to repair it all the same takes a suspicion that has
 * outlived the look. Chosen by trial on simulated cases.
 */
const LIKELY_ALL_THE_SAME = 0.05;
/** A fault below this probability is no reason to try anything. */
const NEGLIGIBLE = 2e-3;
/**
 * A hand-off is put off as if it cost so much more: people answer wrong or unsure more often than the tables foresee,
 * and then one more look finds what was missed. Chosen by trial on simulated cases.
 */
const PUT_OFF: Record<Role, number> = { owner: 2, technician: 3 };
/**
 * What reading a step and answering it takes besides doing it, minutes: few steps that tell much come before many that
 * tell little. Common practice, no source.
 */
const TURN_MINUTES = 0.75;
/** How many suspects a hand-off names. */
const SUSPECTS_HANDED_ON = 3;

/** How often each role has the instrument a reading needs, where the pool's record does not tell. Common practice, no source. */
const HAS_INSTRUMENT: Record<Role, Record<Quantity, number>> = {
  owner: { 'filter-pressure': 0.85, 'pump-vacuum': 0.1, 'cleaner-suction': 0.1, 'wheel-turns': 0.8 },
  technician: { 'filter-pressure': 0.95, 'pump-vacuum': 0.6, 'cleaner-suction': 0.5, 'wheel-turns': 0.9 },
};

/** Everything the choice of one step is made from. */
export interface Situation {
  model: CaseModel;
  belief: readonly number[];
  /** The case in numbers alone. */
  outlook: Outlook;
  /** The checks and the faults behind the outlook's checks and repairs, in its order. */
  checks: readonly Check[];
  faults: readonly Fault[];
  /** The quickest open look at each of these faults. */
  looks: ReadonlyMap<FaultId, Check>;
}

/** Whether a person in this role may be led through the step. */
export function mayDo(step: Pick<Step, 'class'>, role: Role): boolean {
  return step.class <= HIGHEST_CLASS[role];
}

/** Whether a person in this role may repair the fault. */
export function mayRepair(fault: Fault, role: Role): boolean {
  return fault.who.includes(role) && mayDo(fault.repair, role);
}

/** The quickest look among these checks at each of the faults that has one. */
function looksAt(faults: readonly Fault[], checks: readonly Check[]): Map<FaultId, Check> {
  const looks = new Map<FaultId, Check>();
  for (const { id } of faults) {
    const revealing = REVEALED_BY.get(id) ?? [];
    const [quickest] = checks
      .filter((check) => revealing.includes(check.id))
      .sort((a, b) => a.minutes - b.minutes);
    if (quickest !== undefined) looks.set(id, quickest);
  }
  return looks;
}

function openChecks({ setting, events }: Case, model: CaseModel): Check[] {
  const done = checksDone(withoutExplained(events, model));
  const twice = putTwice(events);
  const isOpen = ({ id }: Check): boolean => !done.has(id) && !twice.has(id) && !setting.missing.includes(id);
  return model.checks.filter((check) => mayDo(check, setting.role) && isOpen(check));
}

/** Probability that a check can be answered at all: a gauge may not be there. */
function chanceOfAnswer({ quantity }: Check, setting: Setting): number {
  if (quantity === undefined || setting.baseline[quantity] !== undefined) return 1;
  return HAS_INSTRUMENT[setting.role][quantity];
}

// The planner reads these many times over: written out they have one shape each, which reads far faster than a spread.
function inNumbers(check: Check, model: CaseModel, setting: Setting): OpenCheck {
  const { minutes, class: exposure, needs, keeps } = termsOf(check);
  return {
    minutes: minutes + TURN_MINUTES,
    class: exposure,
    needs,
    keeps,
    likelihood: model.likelihood(check),
    answered: chanceOfAnswer(check, setting),
  };
}

/** The checks whose latest answer is the usual one. */
export function foundNormal(events: readonly CaseEvent[]): Set<CheckId> {
  return new Set(
    latestOf(events).flatMap((event) =>
      event.kind === 'answer' && checkById(event.check).outcomes[0] === event.outcome ? [event.check] : [],
    ),
  );
}

/** Faults that a look at the very thing did not find. */
function faultsDenied(events: readonly CaseEvent[]): Set<FaultId> {
  const normal = foundNormal(events);
  return new Set(
    [...REVEALED_BY]
      .filter(([, checks]) => checks.some((check) => normal.has(check)))
      .map(([fault]) => fault),
  );
}

/** The faults that may be repaired next. */
function openFaults({ setting, events }: Case, model: CaseModel): Fault[] {
  const tried = repairsDone(events);
  return model.faults
    .filter((fault) => fault !== undefined)
    .filter((fault) => mayRepair(fault, setting.role) && !tried.has(fault.id));
}

function repairInNumbers(
  fault: Fault,
  cause: number,
  role: Role,
  look: Check | undefined,
  denied: ReadonlySet<FaultId>,
): TriedRepair {
  const { cures, part } = fault.repair;
  const { minutes, class: exposure, needs, keeps } = termsOf(fault.repair);
  return {
    minutes: minutes + TURN_MINUTES,
    class: exposure,
    needs,
    keeps,
    cause,
    cures,
    lookMinutes: (look?.minutes ?? Infinity) + TURN_MINUTES,
    lookNeeds: look === undefined ? 0 : setUpsOf(look.needs),
    lookClass: look?.class ?? 0,
    onlyAbove: Math.max(part ? LIKELY[role] : NEGLIGIBLE, denied.has(fault.id) ? LIKELY_ALL_THE_SAME : 0),
  };
}

function handOffOf(model: CaseModel, { costs, role }: Setting): HandOff {
  return {
    minutes: PUT_OFF[role] * costs.handOff[role],
    blindMinutes: costs.blindVisit,
    suspects: SUSPECTS_HANDED_ON,
    repairMinutes: model.faults.map((fault) => fault?.repair.minutes ?? 0),
  };
}

/** The situation of a case after its events; by another model than its own only to try what that would change. */
export function situationOf(oneCase: Case, model: CaseModel = modelOf(oneCase.setting)): Situation {
  const { setting, events } = oneCase;
  const belief = beliefOf(oneCase, model);
  const checks = openChecks(oneCase, model);
  const faults = openFaults(oneCase, model);
  const denied = faultsDenied(events);
  const looks = looksAt(faults, checks);
  const repairs = faults.map((fault) =>
    repairInNumbers(fault, model.faults.indexOf(fault), setting.role, looks.get(fault.id), denied),
  );
  const outlook: Outlook = {
    belief,
    checks: checks.map((check) => inNumbers(check, model, setting)),
    repairs,
    table: tabled(repairs),
    made: setUpsOf(padAfter(events)),
    setUpMinutes: minutesOfSetUps(setting.costs),
    handOff: handOffOf(model, setting),
  };
  return { model, belief, outlook, checks, faults, looks };
}
