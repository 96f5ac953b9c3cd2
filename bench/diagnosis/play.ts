/** Leads one case from the complaint to its end by one policy, and watches that no step breaks a rule of safety. */
import type { Say } from '../../src/dialogues/say.ts';
import type { Understood } from '../../src/dialogues/event.ts';
import { minutesOf } from '../../src/calc/outlook.ts';
import { inSafeOrder } from '../../src/calc/safe-order.ts';
import { suspectsOf } from '../../src/engine/belief.ts';
import type { Case, CaseEvent, Setting } from '../../src/engine/case.ts';
import type { CaseModel } from '../../src/engine/model.ts';
import { modelOf } from '../../src/engine/model.ts';
import type { NextStep } from '../../src/engine/next.ts';
import { cautionOrStep, stepData } from '../../src/engine/next.ts';
import { padAfter } from '../../src/engine/pad.ts';
import { minutesOfSetUps, setUpsOf, termsOf } from '../../src/engine/set-ups.ts';
import { mayRepair, situationOf } from '../../src/engine/situation.ts';
import type { CheckId, FaultId } from '../../src/knowledge/ids.ts';
import { SOMETHING_ELSE } from '../../src/knowledge/ids.ts';
import { cautionById } from '../../src/knowledge/trade.ts';
import type { Observed } from '../../tests/dialogues/safety.ts';
import { afterShown, breach, NOTHING_SEEN, observe } from '../../tests/dialogues/safety.ts';
import { answerTo, isCured } from './person.ts';
import type { Policy } from './policies.ts';
import type { Patient } from './world.ts';

const MOST_STEPS = 150;
const SUSPECTS = 3;

export interface Ending {
  /** The person's own minutes: steps and set-ups. */
  ownMinutes: number;
  /** With the visit, what is lost where the visitor comes blind, and the visitor's repair. */
  minutes: number;
  steps: number;
  fixed: boolean;
  /** Cured; or named first; or, where the person may not repair it, among the first three handed on. */
  right: boolean;
  /** The right repair was done and did not help, and the fault was no longer named at the end. */
  triedInVain: boolean;
  /** Handed on although the person may repair it. */
  needlessVisit: boolean;
  /** The person may not repair it, and it was not among the first three handed on. */
  missedHandOff: boolean;
  breaches: string[];
  /** What the case believed of the fault at the end. */
  believed: number;
  /** What the case believed of its first suspect at the end, and whether that was the fault. */
  first: { p: number; right: boolean };
}

function asSay(step: NextStep): Say {
  return { kind: step.kind, id: step.kind === 'check' ? step.check : step.fault, text: [] };
}

interface Course {
  events: CaseEvent[];
  seen: Observed;
  breaches: string[];
}

const UNDERSTOOD: Understood = { kind: 'answer', option: 'understood' };

/** The pump runs again from here on: what was acknowledged of it is void, and cautions that follow are not. */
function pumpRestarted({ acknowledged }: Observed): Observed {
  return {
    acknowledged: acknowledged.filter((id) => !cautionById(id).guards.includes('pump')),
    pumpOff: false,
  };
}

/** Every caution that is due, acknowledged one after another. */
function cautioned(step: NextStep, course: Course, { setting }: Patient): void {
  for (;;) {
    const next = cautionOrStep(step, { setting, events: course.events });
    if (next.kind !== 'caution') return;
    const { caution, brings } = next;
    course.events.push({ kind: 'understood', caution, brings, at: 0 });
    if (brings.pump === 'running') course.seen = pumpRestarted(course.seen);
    course.seen = observe(course.seen, { kind: 'caution', id: caution, text: [] }, UNDERSTOOD);
  }
}

/** A step of a higher class although one of a lower class pays for itself; judged anew, whatever the policy. */
function outOfOrder(step: NextStep, { events }: Course, setting: Setting): string | undefined {
  const { outlook } = situationOf({ setting, events });
  const { highestClass } = inSafeOrder(outlook);
  const own = stepData(step).class;
  return own > highestClass ? `class ${own} comes before class ${highestClass}` : undefined;
}

function shown(step: NextStep, course: Course, { setting }: Patient): void {
  const say = asSay(step);
  const wrong = breach(say, course.seen, setting.role, setting.equipment);
  if (wrong !== undefined) course.breaches.push(wrong);
  course.seen = afterShown(course.seen, say);
}

/** A repair helps where it cures the only fault; where it cures one of two, the pool goes on with the other. */
function repaired(fault: FaultId, patient: Patient): { event: CaseEvent; next: Patient } {
  const cured = isCured(patient, fault);
  const rest = cured ? patient.once?.get(fault) : undefined;
  const result = cured && rest === undefined ? 'worked' : 'not-yet';
  return { event: { kind: 'repair', fault, result, at: 0 }, next: rest ?? patient };
}

function answered(step: NextStep, course: Course, patient: Patient): { event: CaseEvent; next: Patient } {
  const put = (check: CheckId): number =>
    course.events.filter((before) => 'check' in before && before.check === check).length;
  const { event, next } =
    step.kind === 'check'
      ? { event: answerTo(patient, step.check, put(step.check)), next: patient }
      : repaired(step.fault, patient);
  const option = event.kind === 'retired' ? 'unsure' : 'done';
  course.seen = observe(course.seen, asSay(step), { kind: 'answer', option });
  course.events.push(event);
  return { event, next };
}

function minutesOfStep(step: NextStep, events: readonly CaseEvent[], { setting }: Patient): number {
  return minutesOf(termsOf(stepData(step)), setUpsOf(padAfter(events)), minutesOfSetUps(setting.costs));
}

function ending(patient: Patient, course: Course, ownMinutes: number, steps: number, fixed: boolean): Ending {
  const { setting, fault, also } = patient;
  const isOne = (id: string | undefined): boolean =>
    id === fault.id || (also !== undefined && id === also.id);
  const oneCase: Case = { setting, events: course.events };
  const all = suspectsOf(oneCase);
  const known = all.filter((suspect) => suspect.fault !== SOMETHING_ELSE);
  const inThree = all.slice(0, SUSPECTS).some((suspect) => isOne(suspect.fault));
  const mine = mayRepair(fault, setting.role);
  const visit = setting.costs.handOff[setting.role] + (inThree ? 0 : setting.costs.blindVisit);
  const right = fixed || isOne(known[0]?.fault) || (!mine && inThree);
  const tried = course.events.some((event) => event.kind === 'repair' && event.fault === fault.id);
  return {
    ownMinutes,
    minutes: ownMinutes + (fixed ? 0 : visit + fault.repair.minutes),
    steps,
    fixed,
    right,
    triedInVain: tried && !right,
    needlessVisit: !fixed && mine,
    missedHandOff: !fixed && !mine && !inThree,
    breaches: course.breaches,
    believed: all.find((suspect) => suspect.fault === fault.id)?.p ?? 0,
    first: { p: known[0]?.p ?? 0, right: known[0]?.fault === fault.id },
  };
}

export interface Options {
  /** Other numbers to reason with than the engine's own. */
  model?: CaseModel;
  /** Whether the safe order is judged anew at every step; cautions and roles always are. */
  judgeOrder?: boolean;
}

/** Leads a case to its end. */
export function play(first: Patient, policy: Policy, { model, judgeOrder = false }: Options = {}): Ending {
  const { setting } = first;
  let patient = first;
  const reasoned = model ?? modelOf(setting);
  const course: Course = { events: [], seen: NOTHING_SEEN, breaches: [] };
  let minutes = 0;
  for (let steps = 0; steps < MOST_STEPS; steps += 1) {
    const step = policy({ setting, events: course.events }, reasoned, minutes);
    if (step === undefined) return ending(patient, course, minutes, steps, false);
    const disorder = judgeOrder ? outOfOrder(step, course, setting) : undefined;
    if (disorder !== undefined) course.breaches.push(disorder);
    minutes += minutesOfStep(step, course.events, patient);
    cautioned(step, course, patient);
    shown(step, course, patient);
    const { event, next } = answered(step, course, patient);
    patient = next;
    if (event.kind === 'repair' && event.result === 'worked')
      return ending(patient, course, minutes, steps + 1, true);
  }
  throw new Error(`No end after ${MOST_STEPS} steps: seed ${patient.seed}`);
}
