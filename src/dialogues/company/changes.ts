/** What a turn changes in a company. The company is that of the permit it was done with. */
import type { Locale } from '../event.ts';
import type { Company, CompanyRole } from './company.ts';
import type { PlanJob, ReminderKind } from './job.ts';
import type { VisitChange } from './visits/changes.ts';
import { VISIT_CHANGES } from './visits/changes.ts';

/** What an administrator sets. */
export type CompanySetting =
  | { key: 'name' | 'phone' | 'hours'; value: string }
  | { key: 'hand-off-minutes' | 'accept-within-minutes' | 'retention-months'; value: number }
  | { key: 'time-zone'; value: string };

const CHANGES = [
  'set-company',
  'set-staff-chat',
  'invite',
  'revoke-invitation',
  'join-company',
  'name-self',
  'note-failed-link',
  'leave-company',
  'remove-colleague',
  'import-pools',
  'forget-upload',
  'plan-job',
  'reminder-off',
  ...VISIT_CHANGES,
] as const;

export type CompanyChange =
  | VisitChange
  | { do: 'set-company'; company: string; setting: CompanySetting }
  | { do: 'set-staff-chat'; company: string; chat: string; locale: Locale }
  | {
      do: 'invite';
      company: string;
      invitation: string;
      /** Kept as a hash only. */
      payload: string;
      role: CompanyRole;
      pool?: string;
      expiresAt: number;
    }
  | { do: 'revoke-invitation'; company: string; invitation: string }
  | { do: 'join-company'; company: string; invitation: string }
  /** What colleagues are to call the person. */
  | { do: 'name-self'; name: string }
  | { do: 'note-failed-link' }
  | { do: 'leave-company'; company: string }
  | { do: 'remove-colleague'; company: string; person: string; role: CompanyRole }
  /** Takes the pools of a file that the person sent; all of them or none. */
  | { do: 'import-pools'; company: string; upload: string }
  | { do: 'forget-upload'; upload: string }
  | PlanJob
  /** The person wants no more reminders of a kind about a pool. */
  | { do: 'reminder-off'; kind: ReminderKind; pool: string };

/** Whether a change is one of a company. */
export function isCompanyChange(change: { do: string }): change is CompanyChange {
  return CHANGES.some((known) => known === change.do);
}

const FIELDS = {
  name: 'name',
  phone: 'phone',
  hours: 'hours',
  'hand-off-minutes': 'handOffMinutes',
  'accept-within-minutes': 'acceptWithinMinutes',
  'retention-months': 'retentionMonths',
  'time-zone': 'timeZone',
} as const satisfies Record<CompanySetting['key'], keyof Company>;

/** The company after something of it was set. */
export function withSetting(company: Company, { key, value }: CompanySetting): Company {
  return { ...company, [FIELDS[key]]: value };
}
