/** Coming by a link: what it offers, and taking it up. */
import type { Context, Flow, Move, Send } from '../conversation.ts';
import type { Understood } from '../event.ts';
import type { Say } from '../say.ts';
import { info, question, text } from '../say.ts';
import { NO, YES } from '../words.ts';
import type { Offer } from './company.ts';
import { toStaffChat } from './sends.ts';
import { contact, roleName } from './words.ts';

type JoinFlow = Extract<Flow, { at: 'join' }>;
type NameFlow = Extract<Flow, { at: 'own-name' }>;

const LONGEST_NAME = 40;

/** The question which language comes first: the offer is to be understood. */
function afterLanguage(flow: Flow, invitation: string): Flow {
  return flow.at === 'language'
    ? { ...flow, then: afterLanguage(flow.then, invitation) }
    : { at: 'join', invitation, then: flow };
}

/** One and the same answer to every link that does not open, whatever the reason. */
function linkRefused(flow: Flow): Move {
  return { flow, says: [info('link-refused', text('company:link-refused'))] };
}

/** Opens a link with this payload. */
export function openLink(payload: string, { facts, conversation }: Context): Move {
  const offer = facts.office.offerOf(payload);
  if (offer !== undefined) return { flow: afterLanguage(conversation.flow, offer.invitation) };
  return { ...linkRefused(conversation.flow), changes: [{ do: 'note-failed-link' }] };
}

/** Whether to take up what the link offers, and what the company then sees. */
export function askJoin(flow: JoinFlow, { facts }: Context): Say[] {
  const offer = facts.office.offerAgain(flow.invitation);
  if (offer === undefined) return [question('join', text('company:link-refused'), [NO])];
  const { company, role, pool } = offer;
  const ask = text(role === 'owner' ? 'company:join.ask-owner' : 'company:join.ask-staff', {
    company: company.name,
    role: roleName(role),
    pool: pool?.name ?? '',
  });
  return [question('join', ask, [YES, NO])];
}

/** A person who came by a link is not asked who they are: the link says it. */
function withoutRole(flow: Flow): Flow {
  return flow.at === 'role' ? withoutRole(flow.then) : flow;
}

/** Tells the staff who came. */
function announced({ company, role, pool }: Offer): Send[] {
  const words = text(pool === undefined ? 'company:join.told-staff' : 'company:join.told-owner', {
    role: roleName(role),
    pool: pool?.name ?? '',
  });
  return toStaffChat(company, [info('joined', words)], pool?.id);
}

function joined(flow: JoinFlow, offer: Offer): Move {
  const { company, pool } = offer;
  const role = offer.role === 'owner' ? 'owner' : 'technician';
  const then = withoutRole(flow.then);
  const inCase = then.at === 'consult';
  return {
    flow: offer.role === 'owner' ? then : { at: 'own-name', then },
    changes: [
      { do: 'join-company', company: company.id, invitation: offer.invitation },
      { do: 'set-person', role },
    ],
    set: { role, ...(pool === undefined || inCase ? {} : { pool: pool.id }) },
    says: [
      info(
        'joined',
        text('company:join.done', { company: company.name }),
        ...(pool ? [contact(company)] : []),
      ),
    ],
    sends: announced(offer),
  };
}

/** Takes up the offer, or leaves it. */
export function answerJoin(flow: JoinFlow, event: Understood, { facts }: Context): Move | undefined {
  if (event.kind !== 'answer') return undefined;
  if (event.option === 'no') return { flow: flow.then };
  if (event.option !== 'yes') return undefined;
  const offer = facts.office.offerAgain(flow.invitation);
  return offer === undefined ? linkRefused(flow.then) : joined(flow, offer);
}

/** What colleagues are to call the person. */
export function askOwnName(): Say[] {
  return [{ ...question('own-name', text('company:own-name.ask'), []), expects: 'name' }];
}

/** Notes the name. */
export function answerOwnName(flow: NameFlow, event: Understood): Move | undefined {
  const name = event.kind === 'unclear' ? event.text.trim().slice(0, LONGEST_NAME) : '';
  if (name === '') return undefined;
  const says = [info('own-name-kept', text('company:own-name.kept', { name }))];
  return { flow: flow.then, changes: [{ do: 'name-self', name }], says, quiet: true };
}
