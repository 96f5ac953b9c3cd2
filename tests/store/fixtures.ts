/** A store in memory with the database under it, and turns to write into it. */
import type Database from 'better-sqlite3';
import type { Conversation } from '../../src/dialogues/conversation.ts';
import { newConversation } from '../../src/dialogues/conversation.ts';
import type { RecordChange } from '../../src/dialogues/record.ts';
import { openDatabase } from '../../src/store/database.ts';
import type { Commit, InboxEntry, Incoming, Store } from '../../src/store/store.ts';
import { storeOn } from '../../src/store/store.ts';

export const A_MOMENT = Date.UTC(2030, 5, 1, 9);

export interface OpenStore {
  database: Database.Database;
  store: Store;
}

export function freshStore(): OpenStore {
  const database = openDatabase(':memory:');
  return { database, store: storeOn(database) };
}

/** A message of a person in a conversation of their own. */
export function incoming(person: string, key: string): Incoming {
  return {
    channel: 'local',
    key,
    conversation: `talk-${person}`,
    person,
    body: { kind: 'text', text: 'hello' },
  };
}

/** Receives a message and returns its entry in the inbox. */
export function received(store: Store, person: string, key: string): InboxEntry {
  store.receive([incoming(person, key)], A_MOMENT);
  const entry = store.waiting(50).find((one) => one.person === person && one.key === key);
  if (entry === undefined) throw new Error(`The inbox holds no "${key}" of ${person}`);
  return entry;
}

export function conversation(pool: string): Conversation {
  return { ...newConversation('en', 'owner', { at: 'complaint' }), pool };
}

/** A turn that writes these changes and one message. */
export function turnOf(entry: InboxEntry, version: number, changes: readonly RecordChange[] = []): Commit {
  return {
    entry,
    version,
    state: conversation('pool'),
    changes,
    messages: [{ kind: 'info', id: 'said', text: `answer to ${entry.key}` }],
    at: A_MOMENT,
  };
}

/** A pool with a case of three events, of a person. */
export function poolWithCase(person: string): RecordChange[] {
  const [pool, oneCase] = [`pool-${person}`, `case-${person}`];
  const answer = (check: 'water-level' | 'return-flow' | 'valve-handles', outcome: string): RecordChange => ({
    do: 'add-event',
    pool,
    case: oneCase,
    event: { kind: 'answer', check, outcome, at: A_MOMENT },
  });
  return [
    { do: 'set-person', locale: 'es', role: 'technician' },
    { do: 'create-pool', pool, name: 'Invented pool' },
    { do: 'equip', pool, key: 'cleaner', value: 'suction' },
    { do: 'note-missing', pool, instrument: 'pump-vacuum' },
    {
      do: 'note-reading',
      pool,
      reading: { quantity: 'filter-pressure', value: 90_000, said: '13 psi', clean: true, at: A_MOMENT },
    },
    { do: 'open-case', pool, case: oneCase, complaint: 'not-moving', role: 'owner' },
    answer('water-level', 'normal'),
    answer('return-flow', 'weak'),
    answer('valve-handles', 'moved'),
  ];
}

/** Makes the person and their pool part of the company called `company`, with a row in each of its tables. */
export function atCompany({ database, store }: OpenStore, person: string): void {
  const [pool, visit] = [`pool-${person}`, `visit-${person}`];
  const put = (table: string, row: Record<string, string | number>): void => {
    const columns = Object.keys(row);
    const places = columns.map((column) => `@${column}`).join(', ');
    database.prepare(`INSERT INTO ${table} (${columns.join(', ')}) VALUES (${places})`).run(row);
  };
  const at = A_MOMENT;
  const company = 'company';
  put('membership', { person, company, role: 'owner', since: at });
  put('company_pool', { pool, company, reference: `reference-${person}`, since: at, touched_at: at });
  store.invitations.add(
    { id: `invitation-${person}`, payload: person, company, role: 'owner', pool, expiresAt: at },
    at,
  );
  put('link_tries', { person, failed: 1, last_at: at });
  store.uploads.add({ id: `upload-${person}`, person, name: 'pools.csv', content: Buffer.from(person) }, at);
  put('visit', { id: visit, company, pool, state: 'new', technician: person, opened_at: at });
  put('gate_code', { visit, code: `code of ${person}` });
  put('visit_change', { visit, who: person, at, to_state: 'new' });
  put('closing', { visit, cause: 'hose-split', at });
  put('job', { kind: 'still-running', about: visit, person, company, due_at: at, run_at: at });
  put('reminder_off', { person, kind: 'still-running', at });
  put('confirmed_cause', { company, fault: 'hose-split', at });
}

/** Every row of every table, by the table's name. */
export function allRows(database: Database.Database): Record<string, unknown[]> {
  const tables = database
    .prepare<[], { name: string }>(
      "SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'sqlite_%'",
    )
    .all();
  return Object.fromEntries(
    tables.map(({ name }) => [name, database.prepare(`SELECT * FROM "${name}"`).all()]),
  );
}
