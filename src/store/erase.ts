/** Removing a person with all that is theirs. */
import type { Database } from 'better-sqlite3';

/** Removes a person, their pools with all that hangs on them, and every message written to them or about their pools. */
export function eraser(database: Database): (person: string) => void {
  const person = database.prepare('DELETE FROM person WHERE id = ?');
  // The key stays, without anything of the person: an update delivered once more must still change nothing.
  const inbox = database.prepare(
    `UPDATE inbox SET body = '{"kind":"text","text":""}', hints = NULL, person = '', conversation = ''
     WHERE person = ? AND handled_at IS NOT NULL`,
  );
  const outbox = database.prepare(
    'DELETE FROM outbox WHERE conversation IN (SELECT id FROM conversation WHERE person = ?)',
  );
  const aboutPools = database.prepare(
    'DELETE FROM outbox WHERE about IN (SELECT id FROM pool WHERE person = ?)',
  );
  return (id) => {
    outbox.run(id);
    aboutPools.run(id);
    inbox.run(id);
    person.run(id);
  };
}
