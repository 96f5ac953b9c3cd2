/** Messages to the people of a company. */
import type { Context, Send } from '../conversation.ts';
import type { Say } from '../say.ts';
import type { Company } from './company.ts';
import type { Permit } from './permit.ts';

/** What goes to a company's staff chat, in its language; nothing where it has none. `about`: the pool it tells of. */
export function toStaffChat(
  { staffChat: chat, locale }: Company,
  says: readonly Say[],
  about?: string,
): Send[] {
  if (chat === undefined) return [];
  return [{ to: { chat }, locale, says, ...(about === undefined ? {} : { about }) }];
}

/** What goes to the staff chat; without one to everybody in the office who can be reached. */
export function toOffice(given: Permit, { facts }: Context, says: readonly Say[], about: string): Send[] {
  if (given.company.staffChat !== undefined) return toStaffChat(given.company, says, about);
  return facts.office.visits.reachableOffice(given).map((person) => ({ to: { person }, says, about }));
}
