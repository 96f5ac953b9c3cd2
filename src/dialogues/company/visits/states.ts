/** What a visit may turn into, by which change and through whom. Nothing else decides that. */
import type { VisitState } from './visit.ts';

/** Who changes it: the technician it is assigned to is told from the other technicians. */
export const VISIT_ACTORS = ['owner', 'technician', 'assigned', 'dispatcher', 'administrator'] as const;
export type VisitActor = (typeof VISIT_ACTORS)[number];

export const VISIT_DEEDS = [
  'accept',
  'take',
  'assign',
  'schedule',
  'ask',
  'set-out',
  'close',
  'cancel',
] as const;
/** `take` is a technician's own assignment of it; `ask` asks the owner and changes nothing. */
export type VisitDeed = (typeof VISIT_DEEDS)[number];

const OFFICE: readonly VisitActor[] = ['dispatcher', 'administrator'];
const STAFF: readonly VisitActor[] = ['technician', 'assigned', ...OFFICE];
const ON_IT: readonly VisitActor[] = ['assigned', ...OFFICE];

interface Rule {
  by: readonly VisitActor[];
  /** The state after it, by the state before it; from any other state there is no such change. */
  to: Partial<Record<VisitState, VisitState>>;
}

const RULES: Readonly<Record<VisitDeed, Rule>> = {
  accept: { by: STAFF, to: { new: 'accepted' } },
  take: { by: ['technician'], to: { new: 'assigned', accepted: 'assigned' } },
  // A visit under way that is given to somebody else has not begun for them.
  assign: {
    by: OFFICE,
    to: { new: 'assigned', accepted: 'assigned', assigned: 'assigned', 'on-the-way': 'assigned' },
  },
  // Whoever gives it a day has accepted it; another day ends the way there.
  schedule: {
    by: ON_IT,
    to: { new: 'accepted', accepted: 'accepted', assigned: 'assigned', 'on-the-way': 'assigned' },
  },
  ask: {
    by: STAFF,
    to: { new: 'new', accepted: 'accepted', assigned: 'assigned', 'on-the-way': 'on-the-way' },
  },
  'set-out': { by: ON_IT, to: { assigned: 'on-the-way' } },
  // What could be settled without going there is closed as well.
  close: { by: ON_IT, to: { new: 'closed', accepted: 'closed', assigned: 'closed', 'on-the-way': 'closed' } },
  cancel: {
    by: ['owner', ...OFFICE],
    to: { new: 'cancelled', accepted: 'cancelled', assigned: 'cancelled', 'on-the-way': 'cancelled' },
  },
};

/** What comes of a change: the state after it, that it does not fit the state, or that it is not for this person. */
export type Outcome = { to: VisitState } | { not: 'now' } | { not: 'you' };

/** What a change by somebody comes to. Total: every state, change and actor has an outcome. */
export function outcomeOf(state: VisitState, deed: VisitDeed, actor: VisitActor): Outcome {
  const { by, to } = RULES[deed];
  const after = to[state];
  if (after === undefined) return { not: 'now' };
  return by.includes(actor) ? { to: after } : { not: 'you' };
}
