/** What is kept of a person, who sees it, and how it goes. */
import { mayDo } from '../access.ts';
import type { Context } from '../conversation.ts';
import type { CommandId } from '../event.ts';
import type { Say, Text } from '../say.ts';
import { info, text } from '../say.ts';
import type { CompanyRole } from './company.ts';
import { USUAL_MONTHS } from './company.ts';

/** The five lines: what, who, how long, how it is removed, and what remains. */
export function privacy({ facts }: Context): Say {
  const { memberships } = facts;
  const names = [...new Set(memberships.map(({ company }) => company.name))];
  const months = Math.max(...memberships.map(({ company }) => company.retentionMonths), 0) || USUAL_MONTHS;
  const isOwner = memberships.some(({ role }) => role === 'owner');
  const seen = isOwner ? 'seen-company' : names.length === 0 ? 'seen-nobody' : 'seen-staff';
  return info(
    'privacy',
    text('company:privacy.kept'),
    text(`company:privacy.${seen}`, { company: names.join(', ') }),
    text('company:privacy.months', { months }),
    text('company:privacy.erase'),
    text('company:privacy.remains'),
  );
}

const ROLE_HELP: Readonly<Partial<Record<CommandId, CompanyRole>>> = {
  import: 'dispatcher',
  people: 'administrator',
};

/** The commands of a company that are open to the person. */
export function companyHelp({ facts }: Context): Text[] {
  if (facts.memberships.length === 0) return [];
  const open = (Object.keys(ROLE_HELP) as CommandId[]).filter((command) => mayDo({ command }, facts));
  const staff = mayDo({ command: 'find' }, facts) ? [text('company:help.staff')] : [];
  return [
    ...staff,
    ...open.map((command) => text(`company:help.${ROLE_HELP[command] ?? 'dispatcher'}`)),
    ...(mayDo({ command: 'report' }, facts) ? [text('report:help')] : []),
    text('company:help.leave'),
  ];
}
