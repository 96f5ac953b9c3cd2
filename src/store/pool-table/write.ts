/** Writing a company's pools as the table that an import takes. */
import type { Database } from 'better-sqlite3';
import { si } from '../../dialogues/calculators/units.ts';
import { shown } from '../../engine/gauge.ts';
import { csvFile } from '../cells.ts';
import type { Column } from './columns.ts';
import { COLUMNS } from './columns.ts';

interface PoolRow {
  pool: string;
  reference: string;
  name: string;
  address: string;
  language: string | null;
}

/** The latest value of each key of each pool of a company, as `pool key` → value. */
function latest(database: Database, sql: string, company: string): Map<string, string | number | null> {
  const rows = database
    .prepare<[string], { pool: string; key: string; value: string | number | null }>(sql)
    .all(company);
  return new Map(rows.map(({ pool, key, value }) => [`${pool} ${key}`, value]));
}

const EQUIPMENT_OF_COMPANY = `SELECT equipment.pool, key, value FROM equipment
  JOIN company_pool ON company_pool.pool = equipment.pool WHERE company = ? ORDER BY equipment.id`;
const CLEAN_OF_COMPANY = `SELECT reading.pool, quantity AS key, value FROM reading
  JOIN company_pool ON company_pool.pool = reading.pool WHERE company = ? AND clean = 1 ORDER BY at, reading.id`;

function cellOf(
  column: Column,
  row: PoolRow,
  equipment: Map<string, string | number | null>,
  clean: Map<string, string | number | null>,
): string {
  switch (column.kind) {
    case 'text':
      return row[column.id];
    case 'choice':
      return row.language ?? '';
    case 'equipment':
      return String(equipment.get(`${row.pool} ${column.id}`) ?? '');
    case 'figure': {
      const value = equipment.get(`${row.pool} ${column.id}`);
      const [unit] = column.units;
      if (value === undefined || value === null || unit === undefined) return '';
      return `${Number((Number(value) / si(1, unit)).toPrecision(6))} ${unit}`;
    }
    case 'clean': {
      const value = clean.get(`${row.pool} ${column.quantity}`);
      if (typeof value !== 'number') return '';
      const { value: number, unit } = shown(column.quantity, value);
      return `${number} ${unit}`;
    }
  }
}

/** The pools of a company as CSV, UTF-8, by reference. */
export function poolTableOf(database: Database, company: string): string {
  const rows = database
    .prepare<[string], PoolRow>(
      `SELECT pool.id AS pool, reference, name, address, company_pool.locale AS language
       FROM company_pool JOIN pool ON pool.id = company_pool.pool WHERE company = ? ORDER BY reference`,
    )
    .all(company);
  const equipment = latest(database, EQUIPMENT_OF_COMPANY, company);
  const clean = latest(database, CLEAN_OF_COMPANY, company);
  const lines = rows.map((row) => COLUMNS.map((column) => cellOf(column, row, equipment, clean)));
  return csvFile([COLUMNS.map(({ id }) => id), ...lines]);
}
