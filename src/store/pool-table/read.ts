/** Reading a table of pools from the bytes of a file, with every problem by its line. */
import { CsvError, parse } from 'csv-parse/sync';
import type { LineProblem, ProblemCode } from '../../dialogues/company/company.ts';
import { unguarded } from '../cells.ts';
import type { Column } from './columns.ts';
import { allowedIn, cellJudge, COLUMNS } from './columns.ts';

/** The cells of a line by their column; those left empty are left out. */
export type PoolCells = Record<string, string>;

export interface PoolTable {
  rows: { line: number; cells: PoolCells }[];
  problems: LineProblem[];
}

/** More lines than any company's list has. */
const MOST_LINES = 200_000;

interface Parsed {
  record: string[];
  info: { lines: number };
}

function broken(code: ProblemCode, line = 1, column = '', value = ''): PoolTable {
  return { rows: [], problems: [{ line, column, code, value, allowed: allowedIn(column) }] };
}

/** The sign between cells that the line of headings holds most of. */
function delimiterOf(text: string): string {
  const headings = text.split(/\r?\n/, 1)[0] ?? '';
  const count = (sign: string): number => headings.split(sign).length;
  return [',', ';', '\t'].reduce((best, sign) => (count(sign) > count(best) ? sign : best));
}

function headingId(heading: string): string {
  return heading
    .trim()
    .toLowerCase()
    .replaceAll(/[\s_]+/g, '-');
}

function headingsOf(record: readonly string[]): { columns: Column[]; problems: LineProblem[] } {
  const ids = record.map(headingId);
  const problem = (code: ProblemCode, column: string): LineProblem => ({
    line: 1,
    column,
    code,
    value: '',
    allowed: allowedIn(column),
  });
  const known = ids.map((id) => COLUMNS.find((column) => column.id === id));
  const problems = [
    ...ids.filter((_, index) => known[index] === undefined).map((id) => problem('column-unknown', id)),
    ...ids.filter((id, index) => ids.indexOf(id) < index).map((id) => problem('column-twice', id)),
    ...['reference', 'name'].filter((id) => !ids.includes(id)).map((id) => problem('column-missing', id)),
  ];
  return { columns: known.filter((column) => column !== undefined), problems };
}

/** Reads lines one after another; a reference may come once. */
function rowsOf(lines: readonly Parsed[], columns: readonly Column[]): PoolTable {
  const judge = cellJudge();
  const seen = new Set<string>();
  const table: PoolTable = { rows: [], problems: [] };
  for (const {
    record,
    info: { lines: line },
  } of lines) {
    const wrong = (code: ProblemCode, column: string, value: string): void =>
      void table.problems.push({ line, column, code, value, allowed: allowedIn(column) });
    if (record.length !== columns.length) {
      wrong('cells', '', String(record.length));
      continue;
    }
    const cells: PoolCells = {};
    for (const [index, column] of columns.entries()) {
      const value = unguarded((record[index] ?? '').trim());
      const code = judge(column, value);
      if (code !== undefined) wrong(code, column.id, value);
      else if (value !== '') cells[column.id] = value;
    }
    const reference = cells.reference ?? '';
    if (reference !== '' && seen.has(reference)) wrong('twice', 'reference', reference);
    seen.add(reference);
    table.rows.push({ line, cells });
  }
  return table;
}

function parsed(text: string): Parsed[] {
  return parse(text, {
    bom: true,
    delimiter: delimiterOf(text),
    info: true,
    relaxColumnCount: true,
    skipEmptyLines: true,
    skipRecordsWithEmptyValues: true,
  }) as unknown as Parsed[];
}

function textOf(content: Uint8Array): string | undefined {
  try {
    return new TextDecoder('utf-8', { fatal: true }).decode(content);
  } catch {
    return undefined;
  }
}

/** Reads the table in a file. Never throws: what is wrong with it is among the problems. */
export function readPoolTable(content: Uint8Array): PoolTable {
  const text = textOf(content);
  if (text === undefined || text.includes('\u0000')) return broken('not-utf8');
  try {
    const [head, ...lines] = parsed(text);
    if (head === undefined) return broken('no-lines');
    const { columns, problems } = headingsOf(head.record);
    if (problems.length > 0) return { rows: [], problems };
    if (lines.length === 0) return broken('no-lines');
    if (lines.length > MOST_LINES) return broken('too-many', lines.length + 1, '', String(MOST_LINES));
    return rowsOf(lines, columns);
  } catch (error) {
    if (!(error instanceof CsvError)) throw error;
    const line = typeof error.lines === 'number' ? error.lines : 1;
    return broken('not-csv', line);
  }
}
