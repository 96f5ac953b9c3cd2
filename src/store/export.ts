/** The whole record of a pool as it was said, with what was taken back, for a person who wants it in a file. */
import type { Database } from 'better-sqlite3';
import { csvLine } from './cells.ts';

type Row = Record<string, string | number | null>;

export interface PoolExport {
  pool: Row;
  equipment: Row[];
  readings: Row[];
  cases: { case: Row; events: Row[] }[];
}

function dated(row: Row): Row {
  const isTime = (key: string): boolean => key === 'at' || key.endsWith('_at');
  return Object.fromEntries(
    Object.entries(row).map(([key, value]) => [
      key,
      isTime(key) && typeof value === 'number' ? new Date(value).toISOString() : value,
    ]),
  );
}

/** Every pool's id, name and person. */
export function poolsOnRecord(database: Database): Row[] {
  return database.prepare<[], Row>('SELECT id, name, person FROM pool ORDER BY created_at').all();
}

/** The record of the pool with this id or name; undefined where there is none. */
export function exportedPool(database: Database, idOrName: string): PoolExport | undefined {
  const pool = database
    .prepare<[string, string], Row>('SELECT id, name, created_at FROM pool WHERE id = ? OR name = ? LIMIT 1')
    .get(idOrName, idOrName);
  if (pool === undefined) return undefined;
  const id = String(pool.id);
  const all = (sql: string, of: string): Row[] => database.prepare<[string], Row>(sql).all(of).map(dated);
  const cases = all(
    'SELECT id, complaint, role, opened_at, closed_at, outcome, fault FROM consult WHERE pool = ?',
    id,
  );
  return {
    pool: dated(pool),
    equipment: all('SELECT key, value, at FROM equipment WHERE pool = ? ORDER BY id', id),
    readings: all('SELECT quantity, value, said, clean, at FROM reading WHERE pool = ? ORDER BY at, id', id),
    cases: cases.map((row) => ({
      case: row,
      events: all(
        'SELECT event, at, withdrawn_at FROM consult_event WHERE consult = ? ORDER BY id',
        String(row.id),
      ),
    })),
  };
}

/** The record as one table (RFC 4180): a line a fact, in the order of time. */
export function asCsv({ equipment, readings, cases }: PoolExport): string {
  const lines: (string | number | null)[][] = [
    ...equipment.map(({ at, key, value }) => [at ?? '', 'equipment', key ?? '', value ?? '', '']),
    ...readings.map(({ at, quantity, said, value, clean }) => [
      at ?? '',
      clean === 1 ? 'clean reading' : 'reading',
      quantity ?? '',
      said ?? '',
      value ?? '',
    ]),
    ...cases.flatMap(({ case: { opened_at, complaint, outcome, fault }, events }) => [
      [opened_at ?? '', 'case', complaint ?? '', outcome ?? 'open', fault ?? ''],
      ...events.map(({ at, event, withdrawn_at }) => [
        at ?? '',
        withdrawn_at === null ? 'answer' : 'answer taken back',
        complaint ?? '',
        event ?? '',
        '',
      ]),
    ]),
  ];
  const byTime = lines.sort((a, b) => String(a[0]).localeCompare(String(b[0])));
  return [['at', 'kind', 'what', 'value', 'detail'], ...byTime].map(csvLine).join('\r\n') + '\r\n';
}
