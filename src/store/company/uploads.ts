/** Files that people sent, kept until something is done with them. */
import type { Database } from 'better-sqlite3';

export interface Uploads {
  add(upload: { id: string; person: string; name: string; content: Uint8Array }, at: number): void;
  /** The content of a file that this person sent. */
  content(id: string, person: string): Uint8Array | undefined;
  forget(id: string, person: string): void;
  prune(before: number): void;
}

/** The uploads of a database. */
export function uploadsOf(database: Database): Uploads {
  const insert = database.prepare(
    'INSERT INTO upload (id, person, name, content, at) VALUES (?, ?, ?, ?, ?)',
  );
  const one = database.prepare<[string, string], { content: Buffer }>(
    'SELECT content FROM upload WHERE id = ? AND person = ?',
  );
  const forget = database.prepare('DELETE FROM upload WHERE id = ? AND person = ?');
  const prune = database.prepare('DELETE FROM upload WHERE at < ?');
  return {
    add: ({ id, person, name, content }, at) => void insert.run(id, person, name, content, at),
    content: (id, person) => one.get(id, person)?.content,
    forget: (id, person) => void forget.run(id, person),
    prune: (before) => void prune.run(before),
  };
}
