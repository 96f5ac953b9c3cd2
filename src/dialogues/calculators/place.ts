/** Putting what a person typed into the fields of a calculator. */
import { amountsIn } from './amounts.ts';
import type { Amount, Found } from './amounts.ts';
import { fieldsFor, isChoice, isEnough, rangeIn, unitsOf } from './fields.ts';
import type { AmountField, Calculator, ChoiceField, Values } from './fields.ts';
import type { Unit } from './units.ts';

/** Why a text could not be taken as it stands. */
export type Problem =
  | { kind: 'no-number' }
  | { kind: 'strange'; word: string }
  | { kind: 'wrong-unit'; units: readonly Unit[]; unit: Unit }
  | { kind: 'out-of-range'; field: AmountField; value: number; unit: Unit }
  | { kind: 'left-over'; value: number };

export interface Placed {
  values: Values;
  problem?: Problem;
  /** A choice must be made before the amounts can be placed. */
  undecided?: true;
}

function isOpen(values: Values, id: string): boolean {
  return !(id in values);
}

function openAmounts(calculator: Calculator, values: Values): AmountField[] {
  return fieldsFor(calculator, values)
    .filter((field): field is AmountField => !isChoice(field))
    .filter(({ id }) => isOpen(values, id));
}

function openChoice(calculator: Calculator, values: Values): ChoiceField | undefined {
  return fieldsFor(calculator, values)
    .filter(isChoice)
    .find(({ id }) => isOpen(values, id));
}

/** The choice that a word of the text makes. */
export function chosenIn(field: ChoiceField, found: readonly Found[]): string | undefined {
  const words = found.flatMap((each) => (each.kind === 'amount' ? [] : [each.word]));
  return Object.entries(field.choices).find(([, says]) => says.some((word) => words.includes(word)))?.[0];
}

/** Nobody leaves these unsaid where feet or metres are asked for. */
const SMALL_LENGTHS: readonly Unit[] = ['cm', 'in'];

/** Units for a number said without one: of the next amount that has one, of the one before, then the field's own. */
function likelyUnits(units: readonly Unit[], amounts: readonly Amount[], at: number): Unit[] {
  const said = [...amounts.slice(at + 1), ...amounts.slice(0, at).reverse()].map(({ unit }) => unit);
  const near = said.find((unit) => unit !== undefined && units.includes(unit));
  return near === undefined
    ? units.filter((unit, place) => place === 0 || !SMALL_LENGTHS.includes(unit))
    : [near];
}

function isWithin(field: AmountField, value: number, unit: Unit): boolean {
  const [least, most] = rangeIn(field, unit);
  // A rounding error must not turn the end of a range away.
  return value >= least * (1 - 1e-9) && value <= most * (1 + 1e-9);
}

type Fit = { value: number; unit: Unit } | { problem: Problem };

function fitted(field: AmountField, amounts: readonly Amount[], at: number, values: Values): Fit {
  const amount = amounts[at];
  const units = unitsOf(field, values);
  if (amount === undefined) return { problem: { kind: 'no-number' } };
  if (amount.unit !== undefined && !units.includes(amount.unit))
    return { problem: { kind: 'wrong-unit', units, unit: amount.unit } };
  const tried = amount.unit === undefined ? likelyUnits(units, amounts, at) : [amount.unit];
  const readings = amount.otherwise === undefined ? [amount.value] : [amount.value, amount.otherwise];
  for (const unit of tried)
    for (const value of readings) if (isWithin(field, value, unit)) return { value, unit };
  const unit = tried[0] ?? 'count';
  return { problem: { kind: 'out-of-range', field, value: amount.value, unit } };
}

/** "3 ft 6 in" is one length, unless the calculator asks for a pipe in inches too. */
function feetAndInches(amounts: readonly Amount[], calculator: Calculator): Amount[] {
  if (calculator.fields.some((field) => !isChoice(field) && field.units[0] === 'in')) return [...amounts];
  return amounts.reduce<Amount[]>((merged, amount) => {
    const last = merged.at(-1);
    if (last?.unit !== 'ft' || amount.unit !== 'in' || amount.value >= 12) return [...merged, amount];
    const value = Number((last.value + amount.value / 12).toFixed(3));
    return [...merged.slice(0, -1), { kind: 'amount', value, unit: 'ft' }];
  }, []);
}

function fieldFor(amount: Amount, open: readonly AmountField[], values: Values): AmountField | undefined {
  const { unit } = amount;
  return unit === undefined ? open[0] : open.find((field) => unitsOf(field, values).includes(unit));
}

/** Each amount goes to the first open field that takes its unit; one without a unit to the first open field. */
function placedAmounts(calculator: Calculator, before: Values, amounts: readonly Amount[]): Placed {
  let values = before;
  for (const [at, amount] of amounts.entries()) {
    const open = openAmounts(calculator, values);
    const field = fieldFor(amount, open, values) ?? open[0];
    if (field === undefined) return { values, problem: { kind: 'left-over', value: amount.value } };
    const fit = fitted(field, amounts, at, values);
    if ('problem' in fit) return { values, problem: fit.problem };
    values = { ...values, [field.id]: fit };
  }
  return { values };
}

/** The one choice with which every amount finds its place and nothing is missing; undefined where several do, or none. */
function inferred(
  field: ChoiceField,
  calculator: Calculator,
  values: Values,
  amounts: readonly Amount[],
): string | undefined {
  const fitting = Object.keys(field.choices).filter((choice) => {
    const placed = placedAmounts(calculator, { ...values, [field.id]: { choice } }, amounts);
    return placed.problem === undefined && isEnough(calculator, placed.values);
  });
  return fitting.length === 1 ? fitting[0] : undefined;
}

/** Places a text of one or more values. What fits before a problem is kept. */
export function placed(calculator: Calculator, values: Values, line: string): Placed {
  const found = amountsIn(line);
  const amounts = feetAndInches(
    found.filter((each): each is Amount => each.kind === 'amount'),
    calculator,
  );
  const choice = openChoice(calculator, values);
  const chosen = choice && (chosenIn(choice, found) ?? inferred(choice, calculator, values, amounts));
  const known =
    choice === undefined || chosen === undefined ? values : { ...values, [choice.id]: { choice: chosen } };
  if (choice !== undefined && chosen === undefined)
    return amounts.length === 0 ? { values, problem: { kind: 'no-number' } } : { values, undecided: true };
  const strange = found.find((each) => each.kind === 'strange');
  const isChoosing = choice !== undefined;
  if (strange !== undefined && !(isChoosing && chosenIn(choice, [strange]) !== undefined))
    return { values: known, problem: { kind: 'strange', word: strange.word } };
  if (amounts.length === 0)
    return isChoosing ? { values: known } : { values: known, problem: { kind: 'no-number' } };
  return placedAmounts(calculator, known, amounts);
}

/** The first amount of a text where one field is asked for: another unit than it takes is a slip, not another field. */
export function slipAt(field: AmountField, values: Values, line: string): Problem | undefined {
  const first = amountsIn(line).find((each) => each.kind === 'amount');
  const units = unitsOf(field, values);
  if (first?.unit === undefined || units.includes(first.unit)) return undefined;
  return { kind: 'wrong-unit', units, unit: first.unit };
}
