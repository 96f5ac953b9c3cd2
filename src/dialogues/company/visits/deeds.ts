/** Changing a visit: who may, what it turns into, and who is told. */
import { permit, permits } from '../../access.ts';
import type { Context, Flow, Move, Send } from '../../conversation.ts';
import type { ActId } from '../../event.ts';
import type { Facts, FullCase, RecordChange } from '../../record.ts';
import type { Say, Text } from '../../say.ts';
import { info, text } from '../../say.ts';
import type { Permit } from '../permit.ts';
import { toOffice } from '../sends.ts';
import { refused } from '../words.ts';
import type { Outcome, VisitActor, VisitDeed } from './states.ts';
import { outcomeOf } from './states.ts';
import type { Visit } from './visit.ts';
import { isEnded } from './visit.ts';
import { dayFact, poolText, standing, stateText, technicianText } from './words.ts';

/** A visit with the right to do something about it. */
export interface Found {
  given: Permit;
  visit: Visit;
}

/** The visit of a button, in whichever of the person's companies it is. */
export function foundBy(act: ActId, id: string, facts: Facts): Found | undefined {
  for (const given of permits({ act }, facts)) {
    const visit = facts.office.visits.byId(given, id);
    if (visit !== undefined) return { given, visit };
  }
  return undefined;
}

/** The visit that a question is about, where the person may still answer it. */
export function foundIn(
  { at, company, visit: id }: { at: Flow['at']; company: string; visit: string },
  { facts }: Context,
): Found | undefined {
  const given = permit({ flow: at }, company, facts);
  const visit = given && facts.office.visits.byId(given, id);
  return given === undefined || visit === undefined ? undefined : { given, visit };
}

/** The case that led to a visit, with its pool; undefined where it is gone. */
export function caseBehind({ given, visit }: Found, { office }: Facts): FullCase | undefined {
  const { consult, pool } = visit;
  return consult === undefined ? undefined : office.visits.caseOf(given, pool, consult);
}

/** What the person is to a visit; somebody with several roles is all of them. */
function actorsOf(visit: Visit, { memberships, person }: Facts): VisitActor[] {
  const roles = memberships.filter(({ company }) => company.id === visit.company).map(({ role }) => role);
  const own = roles.filter((role) => role !== 'owner' || visit.owner === person);
  const isStaff = own.some((role) => role !== 'owner');
  return isStaff && visit.technician === person ? ['assigned', ...own] : own;
}

/** What a change comes to when this person makes it. */
export function outcomeFor(visit: Visit, deed: VisitDeed, facts: Facts): Outcome {
  const outcomes = actorsOf(visit, facts).map((actor) => outcomeOf(visit.state, deed, actor));
  const possible = outcomes.find((outcome) => 'to' in outcome);
  return possible ?? outcomes.find((outcome) => 'not' in outcome && outcome.not === 'now') ?? { not: 'you' };
}

/** Why nothing was changed: what the state is now, or whose it is to change. */
export function unchanged(visit: Visit, outcome: Exclude<Outcome, { to: unknown }>): Say {
  const facts = { pool: poolText(visit), state: stateText(visit) };
  return info('visit-unchanged', text(`visits:unchanged.${outcome.not}`, facts));
}

/** The answer to a button where nothing comes of it. */
export function nothingComes(
  context: Context,
  found: Found | undefined,
  outcome?: Exclude<Outcome, { to: unknown }>,
): Move {
  const { flow } = context.conversation;
  if (found === undefined || outcome === undefined) return { ...refused(context), aside: true };
  return { flow, says: [unchanged(found.visit, outcome)], aside: true };
}

/** What the owner is told of a change, in plain words. */
function ownerText(before: Visit, after: Visit, company: string): Text {
  const { state, scheduledFor: day } = after;
  if (day !== undefined && day !== before.scheduledFor)
    return text('visits:owner.scheduled', { company, day: dayFact(day) });
  return text(`visits:owner.${state}`, { company, name: technicianText(after) });
}

function toOwner(
  before: Visit,
  after: Visit,
  given: Permit,
  { facts }: Context,
  also: readonly Say[],
): Send[] {
  const { owner, pool: about } = after;
  if (owner === undefined || owner === facts.person) return [];
  const words = ownerText(before, after, given.company.name);
  const say = isEnded(after)
    ? info('visit-told', words)
    : standing('visit-told', words, ['cancel-visit'], after.id);
  const says = also.length > 0 ? also : [say];
  return [{ to: { person: owner }, says, about }];
}

/** The technician who has it, and the one who had it before. */
function toTechnicians(before: Visit, after: Visit, { facts }: Context): Send[] {
  const { pool: about } = after;
  const day = after.scheduledFor;
  const when = day === undefined ? text('visits:no-day-yet') : text('visits:on-day', { day: dayFact(day) });
  const key = isEnded(after) ? `visits:technician.${after.state}` : 'visits:technician.yours';
  const words = text(key, { pool: poolText(after), when });
  const now = isEnded(after)
    ? info('visit-told', words)
    : standing('visit-told', words, ['open-visit', 'set-out', 'close-visit'], after.id);
  const gone = info('visit-told', text('visits:technician.not-yours', { pool: poolText(after) }));
  const told: [string | undefined, Say][] = [
    [after.technician, now],
    [before.technician === after.technician ? undefined : before.technician, gone],
  ];
  return told.flatMap(([person, say]) =>
    person === undefined || person === facts.person ? [] : [{ to: { person }, says: [say], about }],
  );
}

/** The staff chat, unless it was done there for all to see; of an owner's doing also an office without a chat. */
function toStaff(after: Visit, given: Permit, context: Context): Send[] {
  const { staffChat } = given.company;
  if (context.facts.chat === staffChat) return [];
  if (staffChat === undefined && given.role !== 'owner') return [];
  const words = text('visits:now', { pool: poolText(after), state: stateText(after) });
  return toOffice(given, context, [info('visit-told', words)], after.pool);
}

/** What changes beside the state. */
export interface Beside {
  technician?: { person: string; name: string };
  day?: string;
  /** Further changes of the record, before the visit is changed. */
  changes?: readonly RecordChange[];
  /** Said to the owner in place of the plain word. */
  ownerSays?: readonly Say[];
  /** Said to whoever changes it, in place of the plain word. */
  says?: readonly Say[];
}

function visitAfter(visit: Visit, to: Visit['state'], { technician, day }: Beside): Visit {
  return {
    ...visit,
    state: to,
    ...(technician === undefined ? {} : { technician: technician.person, technicianName: technician.name }),
    ...(day === undefined ? {} : { scheduledFor: day }),
  };
}

/** Makes a change that is allowed: the record, and a word to everybody it is for. */
export function changed(
  { given, visit }: Found,
  to: Visit['state'],
  context: Context,
  beside: Beside = {},
): Pick<Move, 'changes' | 'says' | 'sends'> & { changes: RecordChange[] } {
  const after = visitAfter(visit, to, beside);
  const { company, id } = visit;
  const technician = beside.technician?.person;
  const change: RecordChange = {
    do: 'change-visit',
    company,
    visit: id,
    from: visit.state,
    to,
    ...(technician === undefined ? {} : { technician }),
  };
  const { day } = beside;
  const schedule: RecordChange[] =
    day === undefined ? [] : [{ do: 'schedule-visit', company, visit: id, day }];
  const done = text(day === undefined ? 'visits:now' : 'visits:now-on-day', {
    pool: poolText(after),
    state: stateText(after),
    ...(day === undefined ? {} : { day: dayFact(day) }),
  });
  return {
    changes: [...(beside.changes ?? []), change, ...schedule],
    says: beside.says ?? [info('visit-changed', done)],
    sends: [
      ...toOwner(visit, after, given, context, beside.ownerSays ?? []),
      ...toTechnicians(visit, after, context),
      ...toStaff(after, given, context),
    ],
  };
}
