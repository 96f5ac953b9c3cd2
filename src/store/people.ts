/** What the store keeps of a person beside their pools: that they exist, can be reached, and what they sent. */
import type { Database } from 'better-sqlite3';
import type { PhotoNote } from './entries.ts';

export interface People {
  /** A person wrote: they exist and can be reached; `payload` is what the link that led them here carried. */
  heard(person: string, payload: string | undefined, at: number): void;
  /** The person of a conversation blocked the bot. */
  unreachable(conversation: string, at: number): void;
  sentPhoto(person: string, conversation: string, photo: PhotoNote, at: number): void;
}

/** The people of a database. */
export function peopleOf(database: Database): People {
  const add = database.prepare('INSERT OR IGNORE INTO person (id, first_heard_at) VALUES (?, ?)');
  const reach = database.prepare(
    'UPDATE person SET unreachable_at = NULL WHERE id = ? AND unreachable_at IS NOT NULL',
  );
  const came = database.prepare('UPDATE person SET came_by = ? WHERE id = ? AND came_by IS NULL');
  const lose = database.prepare(
    'UPDATE person SET unreachable_at = ? WHERE id = (SELECT person FROM conversation WHERE id = ?)',
  );
  const photo = database.prepare(
    'INSERT INTO photo (person, conversation, consult, step, file, at) VALUES (?, ?, ?, ?, ?, ?)',
  );
  return {
    heard: (person, payload, at) => {
      add.run(person, at);
      reach.run(person);
      if (payload !== undefined) came.run(payload, person);
    },
    unreachable: (conversation, at) => void lose.run(at, conversation),
    sentPhoto: (person, conversation, { file, consult, step }, at) =>
      void photo.run(person, conversation, consult ?? null, step ?? null, file, at),
  };
}
