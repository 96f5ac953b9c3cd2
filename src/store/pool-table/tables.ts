/** Tables of pools in and out of a database. */
import type { Database } from 'better-sqlite3';
import type { PoolTaker } from './take.ts';
import { poolTakerOf } from './take.ts';
import { poolTableOf } from './write.ts';

export interface PoolTables extends PoolTaker {
  /** The pools of a company as CSV. */
  written(company: string): string;
}

/** The tables of a database. */
export function poolTablesOf(database: Database): PoolTables {
  return { ...poolTakerOf(database), written: (company) => poolTableOf(database, company) };
}
