/** The outbox: every message is written here with the turn that says it, and marked once delivered. */
import type { Database } from 'better-sqlite3';
import type { Locale } from '../dialogues/event.ts';
import type { Message } from '../dialogues/message.ts';
import type { Deed, Mark, OutboxEntry } from './entries.ts';

interface OutboxRow {
  id: number;
  conversation: string;
  message: string;
  locale: Locale | null;
  version: number;
  deed: string | null;
  reply_to: number | null;
  parts_sent: number;
  sent_as: number | null;
  chosen: number | null;
}

/** Messages to write in one go. */
export interface Post {
  conversation: string;
  messages: readonly Message[];
  locale: Locale;
  version: number;
  deed?: Deed | undefined;
  replyTo?: number | undefined;
  /** The pool they tell of: removed with it. */
  about?: string | undefined;
}

export interface Outbox {
  add(post: Post, at: number): void;
  undelivered(conversation: string): OutboxEntry[];
  next(conversation: string): OutboxEntry | undefined;
  byId(id: number): OutboxEntry | undefined;
  /** Conversations of a channel with messages not delivered yet. */
  pending(channel: string): string[];
  mark(mark: Mark, at: number): void;
  chose(id: number, option: number): void;
  /** Messages that show buttons of a question no longer open. */
  staleKeyboards(conversation: string): OutboxEntry[];
  retire(id: number): void;
  /** Gives up every open message of a conversation. */
  giveUp(conversation: string, failure: string, at: number): void;
  open(): number;
  prune(before: number): void;
}

function entryOf(row: OutboxRow): OutboxEntry {
  return {
    id: row.id,
    conversation: row.conversation,
    message: JSON.parse(row.message) as Message,
    locale: row.locale ?? 'en',
    version: row.version,
    partsSent: row.parts_sent,
    ...(row.deed === null ? {} : { deed: JSON.parse(row.deed) as Deed }),
    ...(row.reply_to === null ? {} : { replyTo: row.reply_to }),
    ...(row.sent_as === null ? {} : { sentAs: row.sent_as }),
    ...(row.chosen === null ? {} : { chosen: row.chosen }),
  };
}

function reading(
  database: Database,
): Pick<Outbox, 'undelivered' | 'next' | 'byId' | 'pending' | 'staleKeyboards' | 'open'> {
  const open = database.prepare<[string], OutboxRow>(
    'SELECT * FROM outbox WHERE conversation = ? AND delivered_at IS NULL ORDER BY id',
  );
  const first = database.prepare<[string], OutboxRow>(
    'SELECT * FROM outbox WHERE conversation = ? AND delivered_at IS NULL ORDER BY id LIMIT 1',
  );
  const one = database.prepare<[number], OutboxRow>('SELECT * FROM outbox WHERE id = ?');
  const pending = database.prepare<[string, string], { conversation: string }>(
    `SELECT DISTINCT conversation FROM outbox
     WHERE delivered_at IS NULL AND substr(conversation, 1, length(?) + 1) = ? || ':'`,
  );
  const stale = database.prepare<[string], OutboxRow>(
    `SELECT outbox.* FROM outbox JOIN conversation ON conversation.id = outbox.conversation
     WHERE outbox.conversation = ? AND keyboard = 1 AND stands = 0 AND outbox.version < conversation.asked ORDER BY outbox.id`,
  );
  const count = database.prepare<[], { n: number }>(
    'SELECT COUNT(*) AS n FROM outbox WHERE delivered_at IS NULL',
  );
  const found = (row: OutboxRow | undefined): OutboxEntry | undefined => row && entryOf(row);
  return {
    undelivered: (conversation) => open.all(conversation).map(entryOf),
    next: (conversation) => found(first.get(conversation)),
    byId: (id) => found(one.get(id)),
    pending: (channel) => pending.all(channel, channel).map(({ conversation }) => conversation),
    staleKeyboards: (conversation) => stale.all(conversation).map(entryOf),
    open: () => count.get()?.n ?? 0,
  };
}

/** The outbox of a database. */
export function outboxOf(database: Database): Outbox {
  const insert = database.prepare(
    `INSERT INTO outbox (conversation, message, locale, version, deed, reply_to, written_at, stands, about)
     VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)`,
  );
  const mark = database.prepare(
    `UPDATE outbox SET parts_sent = ?, delivered_at = ?, sent_as = COALESCE(?, sent_as),
       keyboard = ?, failure = ? WHERE id = ?`,
  );
  // A secret is kept no longer than it takes to deliver it.
  const forgetSecret = database.prepare(
    `UPDATE outbox SET message = json_remove(json_set(message, '$.text', '…'), '$.picture')
     WHERE id = ? AND json_extract(message, '$.secret')`,
  );
  const chose = database.prepare('UPDATE outbox SET chosen = ? WHERE id = ?');
  const retire = database.prepare('UPDATE outbox SET keyboard = 0 WHERE id = ?');
  const giveUp = database.prepare(
    'UPDATE outbox SET delivered_at = ?, failure = ? WHERE conversation = ? AND delivered_at IS NULL',
  );
  const forget = database.prepare(
    'DELETE FROM outbox WHERE delivered_at < ? AND (keyboard = 0 OR stands = 1)',
  );
  return {
    ...reading(database),
    add: ({ conversation, messages, locale, version, deed, replyTo, about }, at) => {
      const how = deed === undefined ? null : JSON.stringify(deed);
      for (const [index, message] of messages.entries()) {
        const answers = index === 0 ? (replyTo ?? null) : null;
        const stands = message.stands === true ? 1 : 0;
        const row = [conversation, JSON.stringify(message), locale, version, how, answers, at, stands];
        insert.run(...row, about ?? null);
      }
    },
    mark: ({ id, partsSent, done, sentAs, keyboard, failure }, at) => {
      const shows = keyboard === true ? 1 : 0;
      mark.run(partsSent, done ? at : null, sentAs ?? null, shows, failure ?? null, id);
      if (done) forgetSecret.run(id);
    },
    chose: (id, option) => void chose.run(option, id),
    retire: (id) => void retire.run(id),
    giveUp: (conversation, failure, at) => void giveUp.run(at, failure, conversation),
    prune: (before) => void forget.run(before),
  };
}
