/** The state of the pad as far as safety goes, and the cautions a step still needs in it. */
import type { CautionId } from '../knowledge/ids.ts';
import type { Equipment, Pad, PadChange, Step } from '../knowledge/schema.ts';
import { cautionById, checkById, faultById, fits } from '../knowledge/trade.ts';
import type { CaseEvent } from './case.ts';

/** Nobody has told yet: everything is taken to be live. */
const AT_FIRST: Pad = {
  pump: 'running',
  lid: 'closed',
  hose: 'in',
  pressure: 'up',
  robot: 'plugged',
  power: 'on',
};

/** How often each part of the pad's state has changed. */
type Changes = Record<keyof Pad, number>;

interface PadHistory {
  pad: Pad;
  changes: Changes;
  /** For each caution acknowledged, the changes of what it guards at that time. */
  understood: Partial<Record<CautionId, string>>;
}

/** Nothing was acknowledged, or nothing that was can be relied on. */
const UNTOUCHED: PadHistory = {
  pad: AT_FIRST,
  changes: { pump: 0, lid: 0, hose: 0, pressure: 0, robot: 0, power: 0 },
  understood: {},
};

const PARTS = Object.keys(AT_FIRST) as (keyof Pad)[];

function moved(history: PadHistory, to: PadChange): PadHistory {
  const changes = { ...history.changes };
  const entries = Object.entries(to) as [keyof Pad, string | undefined][];
  const changed = entries.filter(([part, value]) => value !== undefined && value !== history.pad[part]);
  for (const [part] of changed) changes[part] += 1;
  return { ...history, pad: { ...history.pad, ...Object.fromEntries(changed) }, changes };
}

/** The count of changes that a caution's acknowledgement is tied to. */
function guardedState(caution: CautionId, changes: Changes): string {
  return cautionById(caution)
    .guards.map((part) => changes[part])
    .join(',');
}

function acknowledged(history: PadHistory, caution: CautionId, brings: PadChange): PadHistory {
  const after = moved(history, brings);
  return {
    ...after,
    understood: { ...after.understood, [caution]: guardedState(caution, after.changes) },
  };
}

function after(history: PadHistory, event: CaseEvent): PadHistory {
  switch (event.kind) {
    case 'understood':
      return acknowledged(history, event.caution, event.brings);
    case 'answer':
      return doing(history, checkById(event.check));
    case 'reading':
      return doing(history, checkById(event.check));
    case 'repair':
      return event.result === 'cannot' ? history : doing(history, faultById(event.fault).repair);
    case 'retired':
      return history;
    case 'pad-unknown':
      return UNTOUCHED;
  }
}

/**
 * Doing a step brings the pad to what it needs, then to what it leaves. Whatever it leaves has been changed on the
 * way, even if it ends as it was: a pump that was restarted runs as before, and its cautions are due again.
 */
function doing(history: PadHistory, step: Step): PadHistory {
  const done = moved(moved(history, step.needs), step.leaves);
  const changes = { ...done.changes };
  for (const part of PARTS) if (step.leaves[part] !== undefined) changes[part] += 1;
  return { ...done, changes };
}

function padHistory(events: readonly CaseEvent[]): PadHistory {
  return events.reduce(after, UNTOUCHED);
}

/** The pad after these events. */
export function padAfter(events: readonly CaseEvent[]): Pad {
  return padHistory(events).pad;
}

/** Cautions that bring the pad from one state to another; the others of `Pad` change without one. */
const TRANSITIONS: readonly { part: keyof Pad; to: string; caution: CautionId }[] = [
  { part: 'power', to: 'locked', caution: 'power-lockout' },
  { part: 'pump', to: 'off', caution: 'pump-off' },
  { part: 'pump', to: 'running', caution: 'restart-swimmers' },
  { part: 'pressure', to: 'released', caution: 'filter-pressure' },
  { part: 'robot', to: 'unplugged', caution: 'robot-unplug' },
];

export interface DueCaution {
  caution: CautionId;
  /** What the pad is once the person has done as the caution says. */
  brings: PadChange;
}

/** The parts of what a caution brings that agree with what the step needs. */
function bringsFor(caution: CautionId, step: Step): PadChange {
  const brings = cautionById(caution).brings;
  const contradicted = PARTS.some(
    (part) =>
      brings[part] !== undefined && step.needs[part] !== undefined && brings[part] !== step.needs[part],
  );
  return contradicted ? {} : brings;
}

/** The cautions still to be acknowledged before a step, in the order in which they are given. */
export function cautionsDue(step: Step, events: readonly CaseEvent[], equipment: Equipment): DueCaution[] {
  const history = padHistory(events);
  const transitions = TRANSITIONS.filter(
    ({ part, to }) => step.needs[part] === to && history.pad[part] !== to,
  ).map(({ caution }) => caution);
  const own = step.cautions.filter(({ when }) => fits(when ?? {}, equipment)).map(({ id }) => id);
  const open = own.filter((id) => history.understood[id] !== guardedState(id, history.changes));
  return [...new Set([...transitions, ...open])].map((caution) => ({
    caution,
    brings: transitions.includes(caution) ? bringsFor(caution, step) : {},
  }));
}
