/** What the buttons beneath a brief do. Each is answered beside whatever else is being asked. */
import { returnTo } from '../../commands.ts';
import type { Context, Flow, Move } from '../../conversation.ts';
import type { ActId } from '../../event.ts';
import type { Facts } from '../../record.ts';
import type { Found } from './deeds.ts';
import { changed, foundBy, nothingComes, outcomeFor } from './deeds.ts';
import { openedBrief } from './lists.ts';
import { closingFlow } from './closing.ts';
import type { VisitDeed } from './states.ts';
import type { VisitState } from './visit.ts';

type Act = (about: string, context: Context) => Move;

type Allowed = { found: Found; to: VisitState } | { refusal: Move };

/** The visit of a button with what it turns into, or the kind word that nothing comes of it. */
function allowed(act: ActId, deed: VisitDeed, about: string, context: Context): Allowed {
  const found = foundBy(act, about, context.facts);
  if (found === undefined) return { refusal: nothingComes(context, undefined) };
  const outcome = outcomeFor(found.visit, deed, context.facts);
  return 'to' in outcome ? { found, to: outcome.to } : { refusal: nothingComes(context, found, outcome) };
}

/** Does something that needs no further word. */
function atOnce(act: ActId, deed: VisitDeed): Act {
  return (about, context) => {
    const one = allowed(act, deed, about, context);
    if ('refusal' in one) return one.refusal;
    return { flow: context.conversation.flow, ...changed(one.found, one.to, context), aside: true };
  };
}

/** Asks something further, where the change is possible at all. */
function asking(act: ActId, deed: VisitDeed, flowOf: (found: Found, then: Flow) => Flow): Act {
  return (about, context) => {
    const one = allowed(act, deed, about, context);
    if ('refusal' in one) return one.refusal;
    return { flow: flowOf(one.found, returnTo(context.conversation.flow)) };
  };
}

function to(
  at: 'assign-visit' | 'schedule-visit' | 'ask-owner' | 'cancel-visit',
): (found: Found, then: Flow) => Flow {
  return ({ visit: { company, id } }, then) => ({ at, company, visit: id, then });
}

function ownName(visit: Found['visit'], facts: Facts): string {
  const given = facts.memberships.find(
    ({ company, role }) => company.id === visit.company && role === 'technician',
  );
  return given?.name ?? '';
}

/** The office chooses who goes; a technician takes it. */
const assign: Act = (about, context) => {
  const { facts, conversation } = context;
  const given = allowed('assign-visit', 'assign', about, context);
  if (!('refusal' in given)) return { flow: to('assign-visit')(given.found, returnTo(conversation.flow)) };
  const taken = allowed('assign-visit', 'take', about, context);
  if ('refusal' in taken) return taken.refusal;
  const technician = { person: facts.person, name: ownName(taken.found.visit, facts) };
  return { flow: conversation.flow, ...changed(taken.found, taken.to, context, { technician }), aside: true };
};

/** An owner may answer as long as the visit is to be done. */
const answer: Act = (about, context) => {
  const found = foundBy('answer-company', about, context.facts);
  if (found === undefined) return nothingComes(context, found);
  const { company, id } = found.visit;
  return { flow: { at: 'answer-company', company, visit: id, then: returnTo(context.conversation.flow) } };
};

const open: Act = (about, context) => {
  const found = foundBy('open-visit', about, context.facts);
  if (found === undefined) return nothingComes(context, found);
  return { flow: context.conversation.flow, ...openedBrief(found, context), aside: true };
};

/** The acts about visits, by their id. */
export const VISIT_ACTS = {
  'accept-visit': atOnce('accept-visit', 'accept'),
  'assign-visit': assign,
  'schedule-visit': asking('schedule-visit', 'schedule', to('schedule-visit')),
  'ask-owner': asking('ask-owner', 'ask', to('ask-owner')),
  'answer-company': answer,
  'open-visit': open,
  'set-out': atOnce('set-out', 'set-out'),
  'close-visit': asking('close-visit', 'close', ({ visit }, then) => closingFlow(visit, then)),
  'cancel-visit': asking('cancel-visit', 'cancel', to('cancel-visit')),
} as const satisfies Partial<Record<ActId, Act>>;
