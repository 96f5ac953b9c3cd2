/** The store: everything a turn reads in one call, everything it writes in one transaction. */
import type { Database } from 'better-sqlite3';
import type { Conversation } from '../dialogues/conversation.ts';
import type { Membership } from '../dialogues/company/company.ts';
import type { Office } from '../dialogues/company/office.ts';
import type { Locale } from '../dialogues/event.ts';
import type { Message } from '../dialogues/message.ts';
import type { FullCase, PoolRecord, RecordChange } from '../dialogues/record.ts';
import type { Gauges } from '../engine/case.ts';
import { QUANTITIES } from '../knowledge/ids.ts';
import type { Equipment, Role } from '../knowledge/schema.ts';
import { EQUIPMENT_KEYS } from '../knowledge/schema.ts';
import { changeWriter } from './changes.ts';
import type { Companies } from './company/companies.ts';
import { companiesOf } from './company/companies.ts';
import type { Invitations } from './company/invitations.ts';
import { invitationsOf } from './company/invitations.ts';
import { membershipsOf } from './company/memberships.ts';
import { officeReader } from './company/office.ts';
import type { JobRunner } from './company/runner.ts';
import { jobRunnerOf } from './company/runner.ts';
import type { Uploads } from './company/uploads.ts';
import { uploadsOf } from './company/uploads.ts';
import { asStoreError, openDatabase } from './database.ts';
import type { Arrival, Deed, InboxEntry, Letter, OutboxEntry, PhotoNote, Utterance } from './entries.ts';
import type { Inbox } from './inbox.ts';
import { HELD, inboxOf } from './inbox.ts';
import type { Outbox, Post } from './outbox.ts';
import { outboxOf } from './outbox.ts';
import type { People } from './people.ts';
import { peopleOf } from './people.ts';
import { poolReader } from './pool-records.ts';
import type { PoolTables } from './pool-table/tables.ts';
import { poolTablesOf } from './pool-table/tables.ts';
import type { Removed } from './retention.ts';
import { retentionOf } from './retention.ts';

export type { Arrival, InboxEntry, Incoming, Letter, OutboxEntry } from './entries.ts';

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

export interface Commit {
  entry: InboxEntry;
  /** The version of the conversation that was loaded. */
  version: number;
  state: Conversation;
  changes: readonly RecordChange[];
  messages: readonly Message[];
  /** Messages to other conversations. */
  sends?: readonly Letter[];
  at: number;
  /** The question that was open before stays the open one, with its buttons. */
  keepsQuestion?: boolean;
  /** How the messages are delivered, other than as messages of their own. */
  deed?: Deed;
  /** The messages as they are spoken, where the person wants that. */
  spoken?: Utterance;
  /** The option that was pressed, of a message in the outbox. */
  chosen?: { message: number; option: number };
  photo?: PhotoNote;
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
  receive(updates: readonly Arrival[], at: number): void;
  /** Updates not handled yet, oldest first; those due later than `at` are left out. */
  waiting(limit: number, at?: number): InboxEntry[];
  load(conversation: string, person: string): Loaded;
  /** What a person may look up at a time; read as it is asked, within the transaction of the turn. */
  officeOf(person: string, at: number): Office<FullCase>;
  /** Where a person or chat is written to, and in which language; undefined where nothing can reach them. */
  addressOf: People['addressOf'];
  /** Writes a turn. False where the conversation moved since it was loaded: then nothing is written. */
  commit(turn: Commit): boolean;
  /** Marks an update as handled that came to nothing, with the messages that say so. */
  setAside(entry: InboxEntry, messages: readonly Message[], at: number): void;
  /** Messages of a conversation not delivered yet, oldest first. */
  undelivered(conversation: string): OutboxEntry[];
  delivered(id: number, at: number): void;
  /** Runs work in one transaction: what fails inside a part of it is undone for that part alone. */
  together<T>(work: () => T): T;
  /** A person who blocked the bot gets nothing more until they write again. */
  unreachable(conversation: string, everywhere: boolean, at: number): void;
  /** Forgets updates handled and messages delivered before these times. */
  prune(handledBefore: number, deliveredBefore: number): void;
  companies: Companies;
  invitations: Pick<Invitations, 'add'>;
  uploads: Pick<Uploads, 'add'>;
  pools: PoolTables;
  jobs: JobRunner;
  /** Removes those not heard of for longer than they are kept. */
  removeSilent(now: number): Removed;
  inbox: Pick<Inbox, 'held' | 'release' | 'nextDueAt' | 'open'>;
  outbox: Pick<Outbox, 'next' | 'byId' | 'pending' | 'mark' | 'staleKeyboards' | 'retire' | 'open'>;
  /** Gives a person a pool outside any conversation, as an import or a demonstration does. */
  seed(person: string, pool: PoolSeed, at: number): void;
  close(): void;
}

interface PersonRow {
  locale: Locale | null;
  role: Role | null;
  spoken: 0 | 1;
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

/** The pool that is talked about in a state as it is stored. */
function currentPool(state: string | undefined): string {
  return state === undefined ? '' : (JSON.parse(state) as Conversation).pool;
}

/** What a turn reads, in one call. */
function loader(database: Database): Store['load'] {
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
    const known = person.get(from);
    return {
      state: row && (JSON.parse(row.state) as Conversation),
      version: row?.version ?? 0,
      asked: row?.asked ?? 0,
      locale: known?.locale ?? undefined,
      role: known?.role ?? undefined,
      spoken: known?.spoken === 1,
      pools: readPools(from, currentPool(row?.state)),
      memberships: memberships.of(from),
    };
  };
}

/** The voice note of a turn as it waits in the outbox: its words stand in the deed, not in a message to show. */
function asSpoken(parts: Utterance, place: Pick<Post, 'conversation' | 'locale' | 'version'>): Post {
  return { ...place, messages: [{ kind: 'info', id: 'spoken', text: '' }], deed: { as: 'spoken', parts } };
}

/** Whether what was said is the code of a gate. */
function tellsCode(change: RecordChange): boolean {
  return change.do === 'open-visit' && change.code !== '';
}

/** Writes a turn; to be run within a transaction. */
function committer(database: Database, inbox: Inbox, outbox: Outbox): Store['commit'] {
  const versionOf = database.prepare<[string], { version: number; asked: number }>(
    'SELECT version, asked FROM conversation WHERE id = ?',
  );
  const putConversation = database.prepare(
    `INSERT INTO conversation (id, person, state, version, asked) VALUES (?, ?, ?, ?, ?)
     ON CONFLICT (id) DO UPDATE SET state = excluded.state, version = excluded.version, asked = excluded.asked`,
  );
  const people = peopleOf(database);
  const write = changeWriter(database);
  return (commit) => {
    const {
      entry,
      version,
      state,
      changes,
      messages,
      sends = [],
      at,
      keepsQuestion,
      deed,
      chosen,
      photo,
      spoken,
    } = commit;
    const { conversation, person, hints } = entry;
    const row = versionOf.get(conversation);
    if ((row?.version ?? 0) !== version) return false;
    if (!inbox.handled(entry.id, at)) return true;
    people.heard(person, hints?.payload, at);
    for (const change of changes) write(change, person, at);
    if (changes.some(tellsCode)) inbox.forgetBody(entry.id);
    people.heard(person, undefined, at);
    const asked = keepsQuestion === true ? (row?.asked ?? 0) : version + 1;
    putConversation.run(conversation, person, JSON.stringify(state), version + 1, asked);
    if (photo !== undefined) people.sentPhoto(person, conversation, photo, at);
    if (chosen !== undefined) outbox.chose(chosen.message, chosen.option);
    const { locale } = state;
    outbox.add({ conversation, messages, locale, version: version + 1, deed, replyTo: hints?.replyTo }, at);
    if (spoken !== undefined)
      outbox.add(asSpoken(spoken, { conversation, locale, version: version + 1 }), at);
    for (const letter of sends) outbox.add({ ...letter, version: 0 }, at);
    return true;
  };
}

/** The store on an open database. */
export function storeOn(database: Database): Store {
  const inbox = inboxOf(database);
  const outbox = outboxOf(database);
  const people = peopleOf(database);
  const write = changeWriter(database);
  const commit = committer(database, inbox, outbox);
  const load = loader(database);
  const officeOf = officeReader(database);
  const companies = companiesOf(database);
  const invitations = invitationsOf(database);
  const uploads = uploadsOf(database);
  const retain = retentionOf(database);
  const jobs = jobRunnerOf(database, outbox);
  const transaction = <T>(work: () => T): T => {
    try {
      return database.transaction(work).immediate();
    } catch (error) {
      throw asStoreError(error);
    }
  };
  const receive = (arrival: Arrival, at: number): void => {
    if (!inbox.add(arrival, at) || arrival.notice === undefined) return;
    const { message, locale } = arrival.notice;
    outbox.add({ conversation: arrival.conversation, messages: [message], locale, version: 0 }, at);
  };
  return {
    inbox,
    outbox,
    load,
    officeOf,
    addressOf: (to) => people.addressOf(to),
    companies,
    invitations,
    uploads,
    pools: poolTablesOf(database),
    jobs,
    together: transaction,
    receive: (updates, at) => transaction(() => updates.forEach((arrival) => receive(arrival, at))),
    waiting: (limit, at = HELD - 1) => inbox.waiting(limit, at),
    commit: (turn) => transaction(() => commit(turn)),
    setAside: (entry, messages, at) =>
      transaction(() => {
        const { state, version } = load(entry.conversation, entry.person);
        const locale = state?.locale ?? 'en';
        const { conversation } = entry;
        if (inbox.handled(entry.id, at)) outbox.add({ conversation, messages, locale, version }, at);
      }),
    undelivered: (to) => outbox.undelivered(to),
    delivered: (id, at) => transaction(() => outbox.mark({ id, partsSent: 1, done: true }, at)),
    unreachable: (conversation, everywhere, at) =>
      transaction(() => {
        outbox.giveUp(conversation, 'blocked', at);
        if (everywhere) people.unreachable(conversation, at);
      }),
    prune: (handledBefore, deliveredBefore) =>
      transaction(() => {
        inbox.prune(handledBefore);
        outbox.prune(deliveredBefore);
        uploads.prune(handledBefore);
        jobs.prune(deliveredBefore);
      }),
    removeSilent: (now) => transaction(() => retain(now)),
    seed: (to, pool, at) =>
      transaction(() => {
        people.heard(to, undefined, at);
        for (const change of seedChanges(pool, at)) write(change, to, at);
      }),
    close: () => database.close(),
  };
}
