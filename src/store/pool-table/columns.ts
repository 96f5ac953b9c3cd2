/** The columns of a table of pools: what each may hold, and how it is read and written. */
import type { ProblemCode } from '../../dialogues/company/company.ts';
import { amountsIn } from '../../dialogues/calculators/amounts.ts';
import type { Unit } from '../../dialogues/calculators/units.ts';
import { si } from '../../dialogues/calculators/units.ts';
import { LOCALES } from '../../dialogues/event.ts';
import { isPossible } from '../../engine/gauge.ts';
import type { Quantity } from '../../knowledge/ids.ts';
import type { EquipmentKey, FigureKey } from '../../knowledge/schema.ts';
import { EQUIPMENT, EQUIPMENT_KEYS, FIGURE_KEYS, FIGURES } from '../../knowledge/schema.ts';

export type Column =
  | { id: 'reference' | 'name' | 'address'; kind: 'text'; longest: number; needed: boolean }
  | { id: 'language'; kind: 'choice'; of: readonly string[] }
  | { id: EquipmentKey; kind: 'equipment'; of: readonly string[] }
  | { id: FigureKey; kind: 'figure'; units: readonly Unit[] }
  | { id: string; kind: 'clean'; quantity: Quantity; units: readonly Unit[] };

/** The first unit is taken where a cell names none. */
const FIGURE_UNITS: Record<FigureKey, readonly Unit[]> = {
  volume: ['gal', 'L', 'm3'],
  'filter-area': ['ft2', 'm2'],
  'rated-power': ['hp', 'W', 'kW'],
};
const CLEAN: readonly Column[] = [
  {
    id: 'clean-filter-pressure',
    kind: 'clean',
    quantity: 'filter-pressure',
    units: ['psi', 'bar', 'kPa', 'inHg'],
  },
  { id: 'clean-pump-vacuum', kind: 'clean', quantity: 'pump-vacuum', units: ['inHg', 'kPa', 'bar', 'psi'] },
];

export const COLUMNS: readonly Column[] = [
  { id: 'reference', kind: 'text', longest: 40, needed: true },
  { id: 'name', kind: 'text', longest: 60, needed: true },
  { id: 'address', kind: 'text', longest: 120, needed: false },
  { id: 'language', kind: 'choice', of: LOCALES },
  ...EQUIPMENT_KEYS.map((id): Column => ({ id, kind: 'equipment', of: EQUIPMENT[id] })),
  ...FIGURE_KEYS.map((id): Column => ({ id, kind: 'figure', units: FIGURE_UNITS[id] })),
  ...CLEAN,
];

/** Reads an amount in one of the units of its column; undefined where it is none. SI. */
export function amountOf(said: string, units: readonly Unit[]): number | undefined {
  const found = amountsIn(said);
  const [amount] = found;
  if (found.length !== 1 || amount?.kind !== 'amount') return undefined;
  const unit = amount.unit ?? units[0];
  return unit !== undefined && units.includes(unit) ? si(amount.value, unit) : undefined;
}

/** What is wrong with a cell that is not empty, if anything is. */
function problemIn(column: Column, value: string): ProblemCode | undefined {
  switch (column.kind) {
    case 'text':
      return value.length > column.longest ? 'too-long' : undefined;
    case 'choice':
    case 'equipment':
      return column.of.includes(value) ? undefined : 'not-one-of';
    case 'figure': {
      const amount = amountOf(value, column.units);
      const { from, to } = FIGURES[column.id];
      if (amount === undefined) return 'not-amount';
      return amount >= from && amount <= to ? undefined : 'out-of-range';
    }
    case 'clean': {
      const amount = amountOf(value, column.units);
      if (amount === undefined) return 'not-reading';
      return amount > 0 && isPossible(column.quantity, amount) ? undefined : 'out-of-range';
    }
  }
}

/** Judges cells; the same cells come again and again in one table, so each is judged once. */
export function cellJudge(): (column: Column, value: string) => ProblemCode | undefined {
  const known = new Map<string, ProblemCode | undefined>();
  return (column, value) => {
    if (value === '') return column.kind === 'text' && column.needed ? 'empty' : undefined;
    if (column.kind === 'text') return problemIn(column, value);
    const key = `${column.id}\n${value}`;
    if (!known.has(key)) known.set(key, problemIn(column, value));
    return known.get(key);
  };
}

/** What a column takes, in words of the columns themselves. */
export function allowedIn(id: string): string {
  const column = COLUMNS.find((known) => known.id === id);
  if (column === undefined) return COLUMNS.map((known) => known.id).join(', ');
  if (column.kind === 'choice' || column.kind === 'equipment') return column.of.join(', ');
  return column.kind === 'text' ? String(column.longest) : column.units.join(', ');
}
