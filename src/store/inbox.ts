/** The inbox: every update is written here before anything is done about it. */
import type { Database } from 'better-sqlite3';
import { LINK_PREFIX } from '../dialogues/company/link.ts';
import type { Body } from '../dialogues/message.ts';
import type { Arrival, Hints, InboxEntry } from './entries.ts';

/** Due time of an update that waits for something other than the clock, as a recording to be listened to. */
export const HELD = Number.MAX_SAFE_INTEGER;

/** What has to be fetched before it means anything. */
const FETCHED = "json_extract(body, '$.kind') IN ('voice', 'file')";

interface InboxRow {
  id: number;
  channel: string;
  update_key: string;
  conversation: string;
  person: string;
  body: string;
  hints: string | null;
}

export interface Inbox {
  /** Adds an update; false where it is there already. Not before those of its conversation, unless urgent. */
  add(arrival: Arrival, at: number): boolean;
  waiting(limit: number, at: number): InboxEntry[];
  /** Recordings held until they are heard, the first of each conversation where nothing before it waits. */
  held(): InboxEntry[];
  /** Gives a held update its meaning, and lets it and those behind it go on. */
  release(id: number, body: Body, at: number): void;
  /** When the next update is due that is not due yet. */
  nextDueAt(at: number): number | undefined;
  /** Forgets what an update said: it was a secret, which is kept elsewhere. */
  forgetBody(id: number): void;
  /** Marks as handled; false where it was. */
  handled(id: number, at: number): boolean;
  open(): number;
  prune(before: number): void;
}

function entryOf({ id, channel, update_key, conversation, person, body, hints }: InboxRow): InboxEntry {
  const entry = { id, channel, key: update_key, conversation, person, body: JSON.parse(body) as Body };
  return hints === null ? entry : { ...entry, hints: JSON.parse(hints) as Hints };
}

function releaser(database: Database): Inbox['release'] {
  const setBody = database.prepare(
    'UPDATE inbox SET body = ?, due_at = ? WHERE id = ? AND handled_at IS NULL',
  );
  const follow = database.prepare(
    `UPDATE inbox SET due_at = @at WHERE handled_at IS NULL AND due_at = ${HELD} AND id > @id
       AND conversation = (SELECT conversation FROM inbox WHERE id = @id)
       AND id < COALESCE((SELECT MIN(id) FROM inbox WHERE id > @id AND handled_at IS NULL
         AND due_at = ${HELD} AND ${FETCHED}
         AND conversation = (SELECT conversation FROM inbox WHERE id = @id)), ${HELD})`,
  );
  return (id, body, at) => {
    setBody.run(JSON.stringify(body), at, id);
    follow.run({ id, at });
  };
}

/** The inbox of a database. */
export function inboxOf(database: Database): Inbox {
  const insert = database.prepare(
    `INSERT OR IGNORE INTO inbox (channel, update_key, conversation, person, body, hints, received_at, due_at)
     VALUES (?, ?, ?, ?, ?, ?, ?, ?)`,
  );
  const lastDue = database.prepare<[string], { due: number | null }>(
    'SELECT MAX(due_at) AS due FROM inbox WHERE conversation = ? AND handled_at IS NULL',
  );
  const due = database.prepare<[number, number], InboxRow>(
    'SELECT * FROM inbox WHERE handled_at IS NULL AND due_at <= ? ORDER BY id LIMIT ?',
  );
  const held = database.prepare<[], InboxRow>(
    `SELECT * FROM inbox WHERE handled_at IS NULL AND due_at = ${HELD} AND ${FETCHED}
       AND NOT EXISTS (SELECT 1 FROM inbox AS before WHERE before.handled_at IS NULL
         AND before.conversation = inbox.conversation AND before.id < inbox.id)
     ORDER BY id`,
  );
  const next = database.prepare<[number], { due: number | null }>(
    `SELECT MIN(due_at) AS due FROM inbox WHERE handled_at IS NULL AND due_at > ? AND due_at < ${HELD}`,
  );
  const markHandled = database.prepare('UPDATE inbox SET handled_at = ? WHERE id = ? AND handled_at IS NULL');
  // The secret of an inviting link is kept no longer than it takes to open it.
  const forgetLink = database.prepare(
    `UPDATE inbox SET body = '{"kind":"text","text":"/start"}', hints = json_remove(hints, '$.payload')
     WHERE id = ? AND json_extract(body, '$.text') LIKE '/start%${LINK_PREFIX}%'`,
  );
  const count = database.prepare<[], { n: number }>(
    'SELECT COUNT(*) AS n FROM inbox WHERE handled_at IS NULL',
  );
  const forgetBody = database.prepare(`UPDATE inbox SET body = '{"kind":"text","text":""}' WHERE id = ?`);
  const forget = database.prepare('DELETE FROM inbox WHERE handled_at < ?');
  return {
    add: ({ channel, key, conversation, person, body, hints, dueAt, urgent }, at) => {
      const dueTime = urgent === true ? 0 : Math.max(dueAt ?? 0, lastDue.get(conversation)?.due ?? 0);
      const said = hints === undefined ? null : JSON.stringify(hints);
      const row = [channel, key, conversation, person, JSON.stringify(body), said, at, dueTime];
      return insert.run(...row).changes > 0;
    },
    waiting: (limit, at) => due.all(at, limit).map(entryOf),
    held: () => held.all().map(entryOf),
    release: releaser(database),
    nextDueAt: (at) => next.get(at)?.due ?? undefined,
    forgetBody: (id) => void forgetBody.run(id),
    handled: (id, at) => {
      const isNew = markHandled.run(at, id).changes > 0;
      forgetLink.run(id);
      return isNew;
    },
    open: () => count.get()?.n ?? 0,
    prune: (before) => void forget.run(before),
  };
}
