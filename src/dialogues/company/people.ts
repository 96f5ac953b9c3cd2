/** The people of a company: who they are, letting one go, and leaving. */
import { permit } from '../access.ts';
import type { Context, Flow, Move, Send } from '../conversation.ts';
import type { Understood } from '../event.ts';
import type { Facts } from '../record.ts';
import type { Option, Say, Text } from '../say.ts';
import { info, question, text } from '../say.ts';
import { NO, YES } from '../words.ts';
import type { Colleague } from './company.ts';
import type { Permit } from './permit.ts';
import { toStaffChat } from './sends.ts';
import { DONE, roleName, saidAndBack } from './words.ts';

type PeopleFlow = Extract<Flow, { at: 'people' }>;
type RemoveFlow = Extract<Flow, { at: 'remove-person' }>;
type LeaveFlow = Extract<Flow, { at: 'leave' }>;

/** Staff come first; a company's owners are found by their pools rather than in a list. */
const PEOPLE_SHOWN = 40;

function idOf({ person, role }: Colleague): string {
  return `${role} ${person}`;
}

function label({ role, name, pools }: Colleague): Text {
  const called = name === '' ? pools.join(', ') : name;
  const facts = { role: roleName(role), name: called };
  return text(called === '' ? 'company:people.item-unnamed' : 'company:people.item', facts);
}

/** Who belongs to the company; choosing one lets them go. */
export function askPeople(flow: PeopleFlow, { facts }: Context): Say[] {
  const given = permit({ flow: 'people' }, flow.company, facts);
  const people = given === undefined ? [] : facts.office.people(given, PEOPLE_SHOWN);
  const options = people.map((one): Option => ({ id: idOf(one), label: label(one) }));
  return [question('people', text('company:people.ask', { count: people.length }), [...options, DONE])];
}

/** Goes on to whether to let the person chosen go. */
export function answerPeople(flow: PeopleFlow, event: Understood, { facts }: Context): Move | undefined {
  const given = permit({ flow: 'people' }, flow.company, facts);
  if (given === undefined || event.kind !== 'answer') return undefined;
  if (event.option === 'done') return { flow: flow.then };
  const one = facts.office.people(given, PEOPLE_SHOWN).find((known) => idOf(known) === event.option);
  if (one === undefined) return undefined;
  if (one.person === facts.person)
    return saidAndBack(flow.then, info('people', text('company:people.yourself')));
  const { company, then } = flow;
  return { flow: { at: 'remove-person', company, person: one.person, role: one.role, then } };
}

/** Whether to let a person go. */
export function askRemovePerson(flow: RemoveFlow): Say[] {
  return [
    question('remove-person', text('company:people.remove-ask', { role: roleName(flow.role) }), [YES, NO]),
  ];
}

/** Lets a person go, and tells them. */
export function answerRemovePerson(
  flow: RemoveFlow,
  event: Understood,
  { facts }: Context,
): Move | undefined {
  const given = permit({ flow: 'remove-person' }, flow.company, facts);
  if (given === undefined || event.kind !== 'answer') return undefined;
  if (event.option === 'no') return { flow: flow.then };
  if (event.option !== 'yes') return undefined;
  const { company, person, role, then } = flow;
  const told = text(`company:people.told-${role === 'owner' ? 'owner' : 'staff'}`, {
    company: given.company.name,
  });
  return {
    ...saidAndBack(then, info('person-removed', text('company:people.removed'))),
    changes: [{ do: 'remove-colleague', company, person, role }],
    sends: [{ to: { person }, says: [info('let-go', told)] }],
  };
}

function isOwnerOf(company: string, { memberships }: Facts): boolean {
  return memberships.some((one) => one.company.id === company && one.role === 'owner');
}

/** Whether to leave, and what stays. */
export function askLeave({ company }: LeaveFlow, { facts }: Context): Say[] {
  const name = facts.memberships.find((one) => one.company.id === company)?.company.name ?? '';
  const key = isOwnerOf(company, facts) ? 'company:leave.ask-owner' : 'company:leave.ask-staff';
  return [question('leave', text(key, { company: name }), [YES, NO])];
}

function isLastAdministrator(given: Permit, { office, memberships, person }: Facts): boolean {
  const runs = memberships.some(
    ({ company, role }) => company.id === given.company.id && role === 'administrator',
  );
  const others = office
    .people(given, Number.MAX_SAFE_INTEGER)
    .some((one) => one.role === 'administrator' && one.person !== person);
  return runs && !others;
}

function goodbye({ company }: Permit, facts: Facts): Send[] {
  const own = facts.pools.filter((pool) => pool.company?.id === company.id);
  if (!isOwnerOf(company.id, facts)) return [];
  return own.flatMap(({ id, name }) =>
    toStaffChat(company, [info('owner-left', text('company:leave.told', { pool: name }))], id),
  );
}

/** Leaves the company; an owner's pools stay with the owner. */
export function answerLeave(flow: LeaveFlow, event: Understood, { facts }: Context): Move | undefined {
  const given = permit({ flow: 'leave' }, flow.company, facts);
  if (given === undefined || event.kind !== 'answer') return undefined;
  if (event.option === 'no') return { flow: flow.then };
  if (event.option !== 'yes') return undefined;
  const { name, id: company } = given.company;
  if (isLastAdministrator(given, facts))
    return saidAndBack(flow.then, info('last-administrator', text('company:leave.last')));
  return {
    ...saidAndBack(flow.then, info('left', text('company:leave.done', { company: name }))),
    changes: [{ do: 'leave-company', company }],
    sends: goodbye(given, facts),
  };
}
