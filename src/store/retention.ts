/** Removing those who were not heard of for long. */
import type { Database } from 'better-sqlite3';
import { USUAL_MONTHS } from '../dialogues/company/company.ts';
import { eraser } from './erase.ts';

/** The same day so many months before, UTC; the last day of the month where that one is shorter. */
export function monthsBefore(at: number, months: number): number {
  const date = new Date(at);
  const day = date.getUTCDate();
  date.setUTCDate(1);
  date.setUTCMonth(date.getUTCMonth() - months);
  const last = new Date(Date.UTC(date.getUTCFullYear(), date.getUTCMonth() + 1, 0)).getUTCDate();
  date.setUTCDate(Math.min(day, last));
  return date.getTime();
}

export interface Removed {
  people: number;
  pools: number;
  /** Ids of the people. */
  who: readonly string[];
}

interface Silent {
  id: string;
  heard_at: number;
  months: number | null;
}

/**
 * Removes every person whose last contact is longer ago than their companies keep it, and the pools that a company
 * imported so long ago and nobody took over. Returns how many of each. To be run within a transaction.
 */
export function retentionOf(database: Database): (now: number) => Removed {
  const erase = eraser(database);
  const silent = database.prepare<[number], Silent>(
    `SELECT person.id, heard_at, MAX(retention_months) AS months FROM person
     LEFT JOIN membership ON membership.person = person.id AND left_at IS NULL
     LEFT JOIN company ON company.id = membership.company
     WHERE heard_at < ? GROUP BY person.id`,
  );
  const untouched = database.prepare<[number], { pool: string; touched_at: number; months: number }>(
    `SELECT pool, touched_at, retention_months AS months FROM company_pool
     JOIN pool ON pool.id = company_pool.pool JOIN company ON company.id = company_pool.company
     WHERE pool.person IS NULL AND touched_at < ?`,
  );
  const removePool = database.prepare('DELETE FROM pool WHERE id = ?');
  return (now) => {
    const earliest = monthsBefore(now, 1);
    const people = silent
      .all(earliest)
      .filter(({ heard_at: at, months }) => at < monthsBefore(now, months ?? USUAL_MONTHS));
    const pools = untouched
      .all(earliest)
      .filter(({ touched_at: at, months }) => at < monthsBefore(now, months));
    for (const { id } of people) erase(id);
    for (const { pool } of pools) removePool.run(pool);
    return { people: people.length, pools: pools.length, who: people.map(({ id }) => id) };
  };
}
