/** Companies and what an administrator sets of them. */
import type { Database } from 'better-sqlite3';
import type { CompanySetting } from '../../dialogues/company/changes.ts';
import type { Company } from '../../dialogues/company/company.ts';
import type { Locale } from '../../dialogues/event.ts';

export interface CompanyRow {
  id: string;
  name: string;
  locale: Locale;
  phone: string;
  hours: string;
  hand_off_minutes: number;
  accept_within_minutes: number;
  time_zone: string;
  staff_chat: string | null;
  retention_months: number;
}

const COLUMNS: Record<CompanySetting['key'], string> = {
  name: 'name',
  phone: 'phone',
  hours: 'hours',
  'hand-off-minutes': 'hand_off_minutes',
  'accept-within-minutes': 'accept_within_minutes',
  'retention-months': 'retention_months',
  'time-zone': 'time_zone',
};

/** A company as it stands in its row. */
export function companyOf(row: CompanyRow): Company {
  return {
    id: row.id,
    name: row.name,
    locale: row.locale,
    phone: row.phone,
    hours: row.hours,
    handOffMinutes: row.hand_off_minutes,
    acceptWithinMinutes: row.accept_within_minutes,
    timeZone: row.time_zone,
    ...(row.staff_chat === null ? {} : { staffChat: row.staff_chat }),
    retentionMonths: row.retention_months,
  };
}

export interface Companies {
  create(company: { id: string; name: string; locale: Locale }, at: number): void;
  byId(id: string): Company | undefined;
  /** Every company of this name, as spelt. */
  called(name: string): Company[];
  all(): Company[];
  set(company: string, setting: CompanySetting): void;
  setStaffChat(company: string, chat: string, locale: Locale): void;
}

/** The companies of a database. */
export function companiesOf(database: Database): Companies {
  const insert = database.prepare('INSERT INTO company (id, name, locale, created_at) VALUES (?, ?, ?, ?)');
  const one = database.prepare<[string], CompanyRow>('SELECT * FROM company WHERE id = ?');
  const named = database.prepare<[string], CompanyRow>('SELECT * FROM company WHERE name = ?');
  const every = database.prepare<[], CompanyRow>('SELECT * FROM company ORDER BY created_at, rowid');
  const staffChat = database.prepare('UPDATE company SET staff_chat = ?, locale = ? WHERE id = ?');
  return {
    create: ({ id, name, locale }, at) => void insert.run(id, name, locale, at),
    byId: (id) => {
      const row = one.get(id);
      return row && companyOf(row);
    },
    called: (name) => named.all(name).map(companyOf),
    all: () => every.all().map(companyOf),
    set: (company, { key, value }) =>
      void database.prepare(`UPDATE company SET ${COLUMNS[key]} = ? WHERE id = ?`).run(value, company),
    setStaffChat: (company, chat, locale) => void staffChat.run(chat, locale, company),
  };
}
