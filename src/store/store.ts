/** The store: everything a turn reads in one call, everything it writes in one transaction. */
import type { Database } from 'better-sqlite3';
import type { Conversation } from '../dialogues/conversation.ts';
import type { Locale } from '../dialogues/event.ts';
import type { Body, Message } from '../dialogues/message.ts';
import type { PoolRecord, RecordChange } from '../dialogues/record.ts';
import type { Gauges } from '../engine/case.ts';
import { QUANTITIES } from '../knowledge/ids.ts';
import type { Equipment, Role } from '../knowledge/schema.ts';
import { EQUIPMENT_KEYS } from '../knowledge/schema.ts';
import { changeWriter } from './changes.ts';
import { asStoreError, openDatabase } from './database.ts';
import { poolReader } from './pool-records.ts';

/** A message as a channel received it. */
export interface Incoming {
  channel: string;
  /** Names the update within its channel: a second one with the same key changes nothing. */
  key: string;
  conversation: string;
  person: string;
  body: Body;
}

export interface InboxEntry extends Incoming {
  id: number;
}

export interface Loaded {
  /** Undefined where nobody has spoken in this conversation yet. */
  state: Conversation | undefined;
  version: number;
  locale: Locale | undefined;
  role: Role | undefined;
  pools: PoolRecord[];
}

export interface Commit {
  entry: InboxEntry;
  /** The version of the conversation that was loaded. */
  version: number;
  state: Conversation;
  changes: readonly RecordChange[];
  messages: readonly Message[];
  at: number;
}

export interface OutboxEntry {
  id: number;
  conversation: string;
  message: Message;
}

export interface PoolSeed {
  id: string;
  name: string;
  equipment: Equipment;
  /** Clean readings, SI. */
  clean: Gauges;
}

export interface Store {
  /** Puts updates into the inbox in one transaction; those already there are left as they are. */
  receive(updates: readonly Incoming[], at: number): void;
  /** Updates not handled yet, oldest first. */
  waiting(limit: number): InboxEntry[];
  load(conversation: string, person: string): Loaded;
  /** Writes a turn. False where the conversation moved since it was loaded: then nothing is written. */
  commit(turn: Commit): boolean;
  /** Marks an update as handled that came to nothing, with the messages that say so. */
  setAside(entry: InboxEntry, messages: readonly Message[], at: number): void;
  /** Messages of a conversation not delivered yet, oldest first. */
  undelivered(conversation: string): OutboxEntry[];
  delivered(id: number, at: number): void;
  /** Gives a person a pool outside any conversation, as an import or a demonstration does. */
  seed(person: string, pool: PoolSeed, at: number): void;
  close(): void;
}

interface InboxRow {
  id: number;
  channel: string;
  update_key: string;
  conversation: string;
  person: string;
  body: string;
}
interface PersonRow {
  locale: Locale | null;
  role: Role | null;
}

function seedChanges({ id, name, equipment, clean }: PoolSeed, at: number): RecordChange[] {
  const said = 'on record';
  return [
    { do: 'create-pool', pool: id, name },
    ...EQUIPMENT_KEYS.flatMap((key): RecordChange[] => {
      const value = equipment[key];
      return value === undefined ? [] : [{ do: 'equip', pool: id, key, value }];
    }),
    ...QUANTITIES.flatMap((quantity): RecordChange[] => {
      const value = clean[quantity];
      if (value === undefined) return [];
      return [{ do: 'note-reading', pool: id, reading: { quantity, value, said, clean: true, at } }];
    }),
  ];
}

/** Opens the store in a file, or in memory with `:memory:`. Throws StoreUnusable. */
export function openStore(file: string): Store {
  return storeOn(openDatabase(file));
}

/** The store on an open database. */
export function storeOn(database: Database): Store {
  const addUpdate = database.prepare(
    'INSERT OR IGNORE INTO inbox (channel, update_key, conversation, person, body, received_at) VALUES (?, ?, ?, ?, ?, ?)',
  );
  const openUpdates = database.prepare<[number], InboxRow>(
    'SELECT * FROM inbox WHERE handled_at IS NULL ORDER BY id LIMIT ?',
  );
  const markHandled = database.prepare('UPDATE inbox SET handled_at = ? WHERE id = ? AND handled_at IS NULL');
  const addPerson = database.prepare('INSERT OR IGNORE INTO person (id, first_heard_at) VALUES (?, ?)');
  const person = database.prepare<[string], PersonRow>('SELECT locale, role FROM person WHERE id = ?');
  const conversation = database.prepare<[string], { state: string; version: number }>(
    'SELECT state, version FROM conversation WHERE id = ?',
  );
  const putConversation = database.prepare(
    `INSERT INTO conversation (id, person, state, version) VALUES (?, ?, ?, ?)
     ON CONFLICT (id) DO UPDATE SET state = excluded.state, version = excluded.version`,
  );
  const addMessage = database.prepare(
    'INSERT INTO outbox (conversation, message, written_at) VALUES (?, ?, ?)',
  );
  const openMessages = database.prepare<[string], { id: number; message: string }>(
    'SELECT id, message FROM outbox WHERE conversation = ? AND delivered_at IS NULL ORDER BY id',
  );
  const markDelivered = database.prepare('UPDATE outbox SET delivered_at = ? WHERE id = ?');
  const readPools = poolReader(database);
  const write = changeWriter(database);

  const transaction = <T>(work: () => T): T => {
    try {
      return database.transaction(work).immediate();
    } catch (error) {
      throw asStoreError(error);
    }
  };
  const post = (to: string, messages: readonly Message[], at: number): void => {
    for (const message of messages) addMessage.run(to, JSON.stringify(message), at);
  };

  return {
    receive: (updates, at) =>
      transaction(() => {
        for (const { channel, key, conversation: to, person: from, body } of updates)
          addUpdate.run(channel, key, to, from, JSON.stringify(body), at);
      }),
    waiting: (limit) =>
      openUpdates
        .all(limit)
        .map(({ update_key, body, ...row }) => ({ ...row, key: update_key, body: JSON.parse(body) as Body })),
    load: (id, from) => {
      const row = conversation.get(id);
      const known = person.get(from);
      return {
        state: row && (JSON.parse(row.state) as Conversation),
        version: row?.version ?? 0,
        locale: known?.locale ?? undefined,
        role: known?.role ?? undefined,
        pools: readPools(from),
      };
    },
    commit: ({ entry, version, state, changes, messages, at }) =>
      transaction(() => {
        if ((conversation.get(entry.conversation)?.version ?? 0) !== version) return false;
        if (markHandled.run(at, entry.id).changes === 0) return true;
        addPerson.run(entry.person, at);
        for (const change of changes) write(change, entry.person, at);
        addPerson.run(entry.person, at);
        putConversation.run(entry.conversation, entry.person, JSON.stringify(state), version + 1);
        post(entry.conversation, messages, at);
        return true;
      }),
    setAside: (entry, messages, at) =>
      transaction(() => {
        if (markHandled.run(at, entry.id).changes > 0) post(entry.conversation, messages, at);
      }),
    undelivered: (to) =>
      openMessages
        .all(to)
        .map(({ id, message }) => ({ id, conversation: to, message: JSON.parse(message) as Message })),
    delivered: (id, at) => {
      markDelivered.run(at, id);
    },
    seed: (to, pool, at) =>
      transaction(() => {
        addPerson.run(to, at);
        for (const change of seedChanges(pool, at)) write(change, to, at);
      }),
    close: () => database.close(),
  };
}
