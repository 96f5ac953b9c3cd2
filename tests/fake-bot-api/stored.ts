/** What a store holds, in a form in which two runs can be compared: no times, no random ids, no platform ids. */
import Database from 'better-sqlite3';

type Row = Record<string, string | number | null>;

/** Ids are random: each is named by the order in which it first appears for its person. */
function renamer(): (text: string) => string {
  const names = new Map<string, string>();
  const id = /[0-9a-f]{8}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{4}-[0-9a-f]{12}/g;
  return (text) =>
    text
      .replace(id, (found) => {
        const name = names.get(found) ?? `id-${names.size + 1}`;
        names.set(found, name);
        return name;
      })
      .replace(/(\\*"(?:at|heardAt|minutes)\\*":)\d+(?:\.\d+)?/g, '$1then')
      .replace(/\b[A-Z][a-z]{2} \d{1,2}, \d{4}, \d{1,2}:\d{2}\s[AP]M/g, 'then');
}

/** Everything of one person that does not depend on the moment: rows of every table, in order. */
export function storedOf(file: string, person: string): string[] {
  const database = new Database(file, { readonly: true });
  const rows = (sql: string): Row[] => database.prepare<[string], Row>(sql).all(person);
  const mine = 'conversation IN (SELECT id FROM conversation WHERE person = ?)';
  const pools = 'pool IN (SELECT id FROM pool WHERE person = ?)';
  const tables = [
    rows('SELECT id, locale, role, came_by, unreachable_at FROM person WHERE id = ?'),
    rows('SELECT id, name FROM pool WHERE person = ? ORDER BY rowid'),
    rows(`SELECT pool, key, value FROM equipment WHERE ${pools} ORDER BY id`),
    rows(`SELECT pool, instrument FROM missing_instrument WHERE ${pools} ORDER BY rowid`),
    rows(`SELECT pool, quantity, value, said, clean FROM reading WHERE ${pools} ORDER BY id`),
    rows(`SELECT id, pool, complaint, role, outcome, fault FROM consult WHERE ${pools} ORDER BY rowid`),
    rows(
      `SELECT consult, event, withdrawn_at IS NULL AS stands FROM consult_event
       WHERE consult IN (SELECT id FROM consult WHERE ${pools}) ORDER BY id`,
    ),
    rows('SELECT id, state, version, asked FROM conversation WHERE person = ? ORDER BY id'),
    rows(
      "SELECT json_extract(body, '$.kind') AS kind, handled_at IS NULL AS open FROM inbox WHERE person = ? ORDER BY id",
    ),
    rows(
      `SELECT message, version, locale, failure, keyboard, chosen, delivered_at IS NULL AS open FROM outbox
       WHERE ${mine} ORDER BY id`,
    ),
    rows('SELECT conversation, consult, step, file FROM photo WHERE person = ? ORDER BY id'),
  ];
  database.close();
  const renamed = renamer();
  return tables.flatMap((table) => table.map((row) => renamed(JSON.stringify(row))));
}
