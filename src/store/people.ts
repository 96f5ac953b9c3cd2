/** What the store keeps of a person beside their pools: that they exist, can be reached, and what they sent. */
import type { Database } from 'better-sqlite3';
import { isInviting } from '../dialogues/company/link.ts';
import type { Send } from '../dialogues/conversation.ts';
import type { Locale } from '../dialogues/event.ts';
import type { PhotoNote } from './entries.ts';

export interface People {
  /**
   * A person wrote: they exist and can be reached. `payload` is what the link that led them here carried; one that
   * invites is a key and is not kept.
   */
  heard(person: string, payload: string | undefined, at: number): void;
  /** The person of a conversation blocked the bot. */
  unreachable(conversation: string, at: number): void;
  /** Where a person or a chat is written to, and in which language; undefined where nothing can reach them. */
  addressOf(to: Send['to']): { conversation: string; locale: Locale } | undefined;
  sentPhoto(person: string, conversation: string, photo: PhotoNote, at: number): void;
}

/** The people of a database. */
export function peopleOf(database: Database): People {
  const add = database.prepare(
    `INSERT INTO person (id, first_heard_at, heard_at) VALUES (?, ?, ?)
     ON CONFLICT (id) DO UPDATE SET heard_at = excluded.heard_at`,
  );
  const reach = database.prepare(
    'UPDATE person SET unreachable_at = NULL WHERE id = ? AND unreachable_at IS NOT NULL',
  );
  const came = database.prepare('UPDATE person SET came_by = ? WHERE id = ? AND came_by IS NULL');
  const lose = database.prepare(
    'UPDATE person SET unreachable_at = ? WHERE id = (SELECT person FROM conversation WHERE id = ?)',
  );
  const own = database.prepare<[string], { id: string; locale: Locale | null }>(
    `SELECT conversation.id, COALESCE(json_extract(state, '$.locale'), person.locale) AS locale
     FROM conversation JOIN person ON person.id = conversation.person
     WHERE conversation.person = ? AND unreachable_at IS NULL
     ORDER BY conversation.id = conversation.person DESC, conversation.rowid LIMIT 1`,
  );
  const chat = database.prepare<[string], { locale: Locale | null }>(
    "SELECT json_extract(state, '$.locale') AS locale FROM conversation WHERE id = ?",
  );
  const photo = database.prepare(
    'INSERT INTO photo (person, conversation, consult, step, file, at) VALUES (?, ?, ?, ?, ?, ?)',
  );
  return {
    heard: (person, payload, at) => {
      add.run(person, at, at);
      reach.run(person);
      if (payload !== undefined && !isInviting(payload)) came.run(payload, person);
    },
    unreachable: (conversation, at) => void lose.run(at, conversation),
    addressOf: (to) => {
      if ('chat' in to) return { conversation: to.chat, locale: chat.get(to.chat)?.locale ?? 'en' };
      const found = own.get(to.person);
      return found && { conversation: found.id, locale: found.locale ?? 'en' };
    },
    sentPhoto: (person, conversation, { file, consult, step }, at) =>
      void photo.run(person, conversation, consult ?? null, step ?? null, file, at),
  };
}
