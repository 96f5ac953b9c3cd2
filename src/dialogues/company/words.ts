/** Texts that the dialogues of a company share. */
import type { Context, Flow, Move } from '../conversation.ts';
import type { Option, Text } from '../say.ts';
import { info, text } from '../say.ts';
import type { CompanyRole, PoolCompany } from './company.ts';

export const DONE: Option = { id: 'done', label: text('dialogue:option.done') };

/** What a role is called. */
export function roleName(role: CompanyRole): Text {
  return text(`company:role.${role}`);
}

/** How a company is reached, as far as that is known. */
export function contact({ name, phone, hours }: PoolCompany): Text {
  const parts = [
    ...(phone === '' ? [] : [text('company:contact.phone', { phone })]),
    ...(hours === '' ? [] : [text('company:contact.hours', { hours })]),
  ];
  return parts.length === 0
    ? text('company:contact.name-only', { name })
    : text('company:contact.reached', { name, parts });
}

/** One message for everything that is not open to the person: it tells nothing of what there is. */
export function refused({ conversation }: Context): Move {
  return { flow: conversation.flow, says: [info('not-allowed', text('company:not-allowed'))] };
}

/** Says something and goes back to where the detour began, without asking on. */
export function saidAndBack(then: Flow, ...says: NonNullable<Move['says']>): Move {
  return { flow: then, says, quiet: true };
}
