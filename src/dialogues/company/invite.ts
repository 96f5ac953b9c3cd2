/** Inviting by link: whom, for which pool, what is open, and taking it back. */
import type { Permit } from './permit.ts';
import { permit } from '../access.ts';
import type { Context, Flow, Move } from '../conversation.ts';
import type { Locale, Understood } from '../event.ts';
import type { RecordChange } from '../record.ts';
import type { Option, Say } from '../say.ts';
import { actOption, info, question, text } from '../say.ts';
import type { CompanyRole, OpenInvitation, PoolLine } from './company.ts';
import { COMPANY_ROLES } from './company.ts';
import { OWNER_LINK_MS, STAFF_LINK_MS } from './link.ts';
import { DONE, refused, roleName, saidAndBack } from './words.ts';

type InviteFlow = Extract<Flow, { at: 'invite' }>;
type InvitationsFlow = Extract<Flow, { at: 'invitations' }>;

const INVITATIONS_SHOWN = 12;

/** A dispatcher invites owners and technicians; an administrator anybody. */
function invitable({ role }: Permit): readonly CompanyRole[] {
  return role === 'administrator' ? COMPANY_ROLES : ['owner', 'technician'];
}

/** Which role. */
export function askInvite(flow: InviteFlow, { facts }: Context): Say[] {
  const given = permit({ flow: 'invite' }, flow.company, facts);
  const roles = given === undefined ? [] : invitable(given);
  const options = roles.map((role): Option => ({ id: role, label: roleName(role) }));
  return [question('invite', text('company:invite.ask'), options)];
}

/** Goes on to the pool for an owner, else to the invitation. */
export function answerInvite(flow: InviteFlow, event: Understood, context: Context): Move | undefined {
  const given = permit({ flow: 'invite' }, flow.company, context.facts);
  if (given === undefined || event.kind !== 'answer') return undefined;
  const role = invitable(given).find((known) => known === event.option);
  if (role === undefined) return undefined;
  const { company, then } = flow;
  if (role === 'owner') return { flow: { at: 'find-pool', company, purpose: 'invite', text: '', then } };
  return saidWithChanges(then, invitation(given, role, undefined, context));
}

interface Invited {
  change: RecordChange;
  says: Say[];
}

function saidWithChanges(then: Flow, { change, says }: Invited): Move {
  return { ...saidAndBack(then, ...says), changes: [change] };
}

function inviting(
  given: Permit,
  role: CompanyRole,
  pool: PoolLine | undefined,
  { facts }: Context,
): Extract<RecordChange, { do: 'invite' }> {
  return {
    do: 'invite',
    company: given.company.id,
    invitation: `${facts.freshId}-invitation`,
    payload: facts.freshLink.payload,
    role,
    expiresAt: facts.now + (role === 'owner' ? OWNER_LINK_MS : STAFF_LINK_MS),
    ...(pool === undefined ? {} : { pool: pool.id }),
  };
}

function invitation(given: Permit, role: CompanyRole, pool: PoolLine | undefined, context: Context): Invited {
  const change = inviting(given, role, pool, context);
  const { address } = context.facts.freshLink;
  const words = text(pool === undefined ? 'company:invite.made' : 'company:invite.made-for-pool', {
    role: roleName(role),
    company: given.company.name,
    pool: pool?.name ?? '',
    until: { day: change.expiresAt },
    address,
  });
  const revoke = actOption('revoke-invitation', change.invitation, text('company:invite.revoke'));
  const link: Say = { ...info('invitation', words), options: [revoke], stands: true, secret: true };
  const code: Say = {
    kind: 'picture',
    id: 'invitation-code',
    text: [text('company:invite.code')],
    picture: { draw: 'link-code', address, caption: pool?.name ?? given.company.name },
    secret: true,
  };
  return { change, says: [link, code] };
}

/** Invites the owner of a pool. */
export function inviteOwner(given: Permit, pool: PoolLine, then: Flow, context: Context): Move {
  return saidWithChanges(then, invitation(given, 'owner', pool, context));
}

/** A message for the owner of a pool, ready to be sent by any means, in the owner's language. */
export function messageForOwner(given: Permit, pool: PoolLine, then: Flow, context: Context): Move {
  const change = inviting(given, 'owner', pool, context);
  const locale: Locale = pool.locale ?? given.company.locale;
  const { name } = given.company;
  const ready = text('company:send.message', {
    company: name,
    pool: pool.name,
    address: context.facts.freshLink.address,
  });
  const says: Say[] = [
    info('send', text('company:send.head', { until: { day: change.expiresAt } })),
    { ...info('ready-message', ready), locale, secret: true },
  ];
  return saidWithChanges(then, { change, says });
}

function invitationLabel({ role, pool, expiresAt }: OpenInvitation): Option['label'] {
  const facts = { role: roleName(role), pool: pool ?? '', until: { day: expiresAt } };
  return text(pool === undefined ? 'company:invitations.item' : 'company:invitations.item-pool', facts);
}

/** The invitations that can still be used; choosing one revokes it. */
export function askInvitations(flow: InvitationsFlow, { facts }: Context): Say[] {
  const given = permit({ flow: 'invitations' }, flow.company, facts);
  const open = given === undefined ? [] : facts.office.invitations(given, INVITATIONS_SHOWN);
  const options = open.map((one): Option => ({ id: one.id, label: invitationLabel(one) }));
  const ask = text(open.length === 0 ? 'company:invitations.none' : 'company:invitations.ask');
  return [question('invitations', ask, [...options, DONE])];
}

/** Revokes the invitation chosen. */
export function answerInvitations(
  flow: InvitationsFlow,
  event: Understood,
  { facts }: Context,
): Move | undefined {
  const given = permit({ flow: 'invitations' }, flow.company, facts);
  if (given === undefined || event.kind !== 'answer') return undefined;
  if (event.option === 'done') return { flow: flow.then };
  const open = facts.office.invitations(given, INVITATIONS_SHOWN);
  const chosen = open.find(({ id }) => id === event.option);
  return chosen && { ...saidAndBack(flow.then, revoked()), changes: [revoking(given, chosen.id)] };
}

function revoked(): Say {
  return info('invitation-revoked', text('company:invite.revoked'));
}

function revoking({ company }: Permit, invitation: string): RecordChange {
  return { do: 'revoke-invitation', company: company.id, invitation };
}

/** Revokes the invitation beneath whose message the button stands. */
export function revokeInvitation(about: string, context: Context): Move {
  const { facts, conversation } = context;
  const offer = facts.office.offerAgain(about);
  const given = offer && permit({ act: 'revoke-invitation' }, offer.company.id, facts);
  if (given === undefined) return { ...refused(context), aside: true };
  return { flow: conversation.flow, says: [revoked()], changes: [revoking(given, about)], aside: true };
}
