/** The store: everything a turn reads in one call, everything it writes in one transaction. */
import type { Database } from 'better-sqlite3';
import type { Office } from '../dialogues/company/office.ts';
import type { Message } from '../dialogues/message.ts';
import type { FullCase } from '../dialogues/record.ts';
import { changeWriter } from './changes.ts';
import type { Commit } from './commit.ts';
import { committer } from './commit.ts';
import type { Companies } from './company/companies.ts';
import { companiesOf } from './company/companies.ts';
import type { Invitations } from './company/invitations.ts';
import { invitationsOf } from './company/invitations.ts';
import { officeReader } from './company/office.ts';
import type { JobRunner } from './company/runner.ts';
import { jobRunnerOf } from './company/runner.ts';
import type { Uploads } from './company/uploads.ts';
import { uploadsOf } from './company/uploads.ts';
import { asStoreError, openDatabase } from './database.ts';
import type { Arrival, InboxEntry, OutboxEntry } from './entries.ts';
import type { Inbox } from './inbox.ts';
import { HELD, inboxOf } from './inbox.ts';
import type { Loaded } from './load.ts';
import { loader } from './load.ts';
import type { Outbox } from './outbox.ts';
import { outboxOf } from './outbox.ts';
import type { People } from './people.ts';
import { peopleOf } from './people.ts';
import type { PoolTables } from './pool-table/tables.ts';
import { poolTablesOf } from './pool-table/tables.ts';
import type { Removed } from './retention.ts';
import { retentionOf } from './retention.ts';
import type { PoolSeed } from './seed.ts';
import { seedChanges } from './seed.ts';

export type { Commit } from './commit.ts';
export type { Arrival, InboxEntry, Incoming, Letter, OutboxEntry } from './entries.ts';
export type { Loaded } from './load.ts';
export type { PoolSeed } from './seed.ts';

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

/** Opens the store in a file, or in memory with `:memory:`. Throws StoreUnusable. */
export function openStore(file: string): Store {
  return storeOn(openDatabase(file));
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
