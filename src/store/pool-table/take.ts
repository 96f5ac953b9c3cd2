/**
 * Taking a table of pools into a company's record. A line is known by its reference and by what it said at the last
 * import: what a person corrected since stays as they left it until the line itself says something else.
 */
import type { Database } from 'better-sqlite3';
import type { ImportPlan } from '../../dialogues/company/company.ts';
import { shown } from '../../engine/gauge.ts';
import type { Column } from './columns.ts';
import { amountOf, COLUMNS } from './columns.ts';
import type { PoolCells } from './read.ts';
import { readPoolTable } from './read.ts';

interface Known {
  pool: string;
  imported: PoolCells;
}

/** A line that adds a pool or changes one. */
interface Difference {
  cells: PoolCells;
  /** Undefined for a new pool. */
  known?: Known;
}

const PROBLEMS_KEPT = 20;
const EXAMPLES = 3;
/** Amounts nearer than this are the same, written with fewer digits. */
const SAME_WITHIN = 1e-3;

export interface PoolTaker {
  plan(company: string, content: Uint8Array): ImportPlan;
  /** Takes the table: all of it, or nothing where there is a problem. `freshId` names the new pools. */
  take(
    company: string,
    content: Uint8Array,
    freshId: string,
    at: number,
    onLine?: (n: number) => void,
  ): ImportPlan;
}

function sameCells(a: PoolCells, b: PoolCells): boolean {
  const keys = Object.keys(a);
  return keys.length === Object.keys(b).length && keys.every((key) => a[key] === b[key]);
}

function knownReader(database: Database): (company: string) => Map<string, Known> {
  const rows = database.prepare<[string], { reference: string; pool: string; imported: string }>(
    'SELECT reference, pool, imported FROM company_pool WHERE company = ?',
  );
  return (company) =>
    new Map(
      rows
        .all(company)
        .map(({ reference, pool, imported }) => [
          reference,
          { pool, imported: JSON.parse(imported) as PoolCells },
        ]),
    );
}

function comparedWith(
  known: Map<string, Known>,
  content: Uint8Array,
): { plan: ImportPlan; differences: Difference[] } {
  const { rows, problems } = readPoolTable(content);
  const differences = rows.flatMap(({ cells }): Difference[] => {
    const before = known.get(cells.reference ?? '');
    if (before === undefined) return [{ cells }];
    return sameCells(before.imported, cells) ? [] : [{ cells, known: before }];
  });
  const fresh = differences.filter((difference) => difference.known === undefined).length;
  const plan = {
    lines: rows.length,
    fresh,
    changed: differences.length - fresh,
    same: rows.length - differences.length,
    examples: differences.slice(0, EXAMPLES).map(({ cells }) => cells.name ?? ''),
    problems: problems.slice(0, PROBLEMS_KEPT),
    problemCount: problems.length,
  };
  return { plan, differences };
}

/** Writes one cell of a pool where it says something new. */
function cellWriter(
  database: Database,
): (pool: string, column: Column, value: string, isNew: boolean, at: number) => void {
  const rename = database.prepare('UPDATE pool SET name = ? WHERE id = ?');
  const latest = database.prepare<[string, string], { value: string | null }>(
    'SELECT value FROM equipment WHERE pool = ? AND key = ? ORDER BY id DESC LIMIT 1',
  );
  const equip = database.prepare('INSERT INTO equipment (pool, key, value, at) VALUES (?, ?, ?, ?)');
  const lastClean = database.prepare<[string, string], { value: number }>(
    'SELECT value FROM reading WHERE pool = ? AND quantity = ? AND clean = 1 ORDER BY at DESC, id DESC LIMIT 1',
  );
  const read = database.prepare(
    'INSERT INTO reading (pool, quantity, value, said, clean, at) VALUES (?, ?, ?, ?, 1, ?)',
  );
  return (pool, column, value, isNew, at) => {
    switch (column.kind) {
      case 'text':
        if (column.id === 'name' && !isNew) rename.run(value, pool);
        return;
      case 'choice':
        return;
      case 'equipment':
        if (isNew || latest.get(pool, column.id)?.value !== value) equip.run(pool, column.id, value, at);
        return;
      case 'figure': {
        const amount = amountOf(value, column.units) ?? 0;
        const before = isNew ? 0 : Number(latest.get(pool, column.id)?.value ?? 0);
        if (Math.abs(before - amount) > SAME_WITHIN * amount) equip.run(pool, column.id, String(amount), at);
        return;
      }
      case 'clean': {
        const amount = amountOf(value, column.units) ?? 0;
        const before = isNew ? undefined : lastClean.get(pool, column.quantity)?.value;
        const isSame =
          before !== undefined &&
          shown(column.quantity, before).value === shown(column.quantity, amount).value;
        if (!isSame) read.run(pool, column.quantity, amount, value, at);
      }
    }
  };
}

/** Writes the lines that differ; to be run within a transaction. */
function differenceWriter(
  database: Database,
): (company: string, difference: Difference, freshId: string, at: number) => void {
  const add = database.prepare('INSERT INTO pool (id, person, name, created_at) VALUES (?, NULL, ?, ?)');
  const own = database.prepare(
    `INSERT INTO company_pool (pool, company, reference, address, locale, since, touched_at, imported)
     VALUES (@pool, @company, @reference, @address, @locale, @at, @at, @imported)
     ON CONFLICT (company, reference) DO UPDATE SET imported = excluded.imported, touched_at = excluded.touched_at,
       address = CASE excluded.address WHEN '' THEN address ELSE excluded.address END,
       locale = COALESCE(excluded.locale, locale)`,
  );
  const write = cellWriter(database);
  return (company, { cells, known }, freshId, at) => {
    const pool = known?.pool ?? freshId;
    if (known === undefined) add.run(pool, cells.name ?? '', at);
    own.run({
      pool,
      company,
      reference: cells.reference ?? '',
      address: cells.address ?? '',
      locale: cells.language ?? null,
      imported: JSON.stringify(cells),
      at,
    });
    for (const column of COLUMNS) {
      const value = cells[column.id];
      if (value === undefined || value === known?.imported[column.id]) continue;
      write(pool, column, value, known === undefined, at);
    }
  };
}

/** Takes tables into a database. */
export function poolTakerOf(database: Database): PoolTaker {
  const knownPools = knownReader(database);
  const write = differenceWriter(database);
  return {
    plan: (company, content) => {
      return comparedWith(knownPools(company), content).plan;
    },
    take: (company, content, freshId, at, onLine) => {
      const { differences, plan } = comparedWith(knownPools(company), content);
      if (plan.problemCount > 0) return plan;
      for (const [index, difference] of differences.entries()) {
        write(company, difference, `${freshId}-${index + 1}`, at);
        onLine?.(index + 1);
      }
      return plan;
    },
  };
}
