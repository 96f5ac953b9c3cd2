/** What a turn reads. */
import type { Database } from 'better-sqlite3';
import type { Conversation } from '../dialogues/conversation.ts';
import type { Membership } from '../dialogues/company/company.ts';
import type { Locale } from '../dialogues/event.ts';
import type { PoolRecord } from '../dialogues/record.ts';
import type { Role } from '../knowledge/schema.ts';
import { membershipsOf } from './company/memberships.ts';
import { poolReader } from './pool-records.ts';

export interface Loaded {
  /** Undefined where nobody has spoken in this conversation yet. */
  state: Conversation | undefined;
  version: number;
  /** The version whose question is the open one. */
  asked: number;
  locale: Locale | undefined;
  role: Role | undefined;
  /** The person wants replies spoken as well. */
  spoken: boolean;
  pools: PoolRecord[];
  /** What the person is to companies now. */
  memberships: Membership[];
}

interface PersonRow {
  locale: Locale | null;
  role: Role | null;
  spoken: 0 | 1;
}

/** What a turn reads, in one call. */
export function loader(database: Database): (conversation: string, person: string) => Loaded {
  const person = database.prepare<[string], PersonRow>(
    'SELECT locale, role, spoken FROM person WHERE id = ?',
  );
  const conversation = database.prepare<[string], { state: string; version: number; asked: number }>(
    'SELECT state, version, asked FROM conversation WHERE id = ?',
  );
  const readPools = poolReader(database);
  const memberships = membershipsOf(database);
  return (id, from) => {
    const row = conversation.get(id);
    const state = row && (JSON.parse(row.state) as Conversation);
    const known = person.get(from);
    return {
      state,
      version: row?.version ?? 0,
      asked: row?.asked ?? 0,
      locale: known?.locale ?? undefined,
      role: known?.role ?? undefined,
      spoken: known?.spoken === 1,
      pools: readPools(from, state?.pool ?? ''),
      memberships: memberships.of(from),
    };
  };
}
