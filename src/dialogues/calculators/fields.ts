/** What a calculator asks for: fields as data, and the values given for them. */
import type { CautionId } from '../../knowledge/ids.ts';
import { si } from './units.ts';
import type { Unit } from './units.ts';

export const CALCULATORS = [
  'flow',
  'volume',
  'turnover',
  'headloss',
  'speed',
  'de',
  'backwash',
  'soak',
] as const;
export type CalculatorId = (typeof CALCULATORS)[number];

/** A value as the person gave it; null where it was left out. */
export type Given = { value: number; unit: Unit } | { choice: string } | null;
/** Plain JSON: part of the conversation's state. A field that is not there has not been asked. */
export type Values = Readonly<Record<string, Given>>;

export type Range = readonly [least: number, most: number];

interface Condition {
  /** Asked only where another field has one of these choices. */
  when?: { field: string; is: readonly string[] };
  /** Asked only where these were given. */
  after?: readonly string[];
}

export interface AmountField extends Condition {
  id: string;
  /** Units it may be given in; the first is meant where none is said and none stands beside it. */
  units: readonly Unit[];
  /** Units left where another field was not given. */
  without?: { field: string; units: readonly Unit[] };
  /** Least and most, in the first unit. */
  range: Range;
  /** Another range for a unit of another kind. */
  ranges?: Readonly<Partial<Record<Unit, Range>>>;
  /** A good answer, understood in either language. */
  example: string;
  optional?: true;
  /** Answers offered to choose from: texts that a person could type. */
  usual?: readonly string[];
}

export interface ChoiceField extends Condition {
  id: string;
  /** Each with the words for it in either language, folded. */
  choices: Readonly<Record<string, readonly string[]>>;
}

export type Field = AmountField | ChoiceField;

export interface Calculator {
  cautions: readonly CautionId[];
  fields: readonly Field[];
  /** At least one of these optional fields is needed. */
  oneOf?: readonly string[];
}

/** Whether a field is answered by choosing. */
export function isChoice(field: Field): field is ChoiceField {
  return 'choices' in field;
}

/** The value of a field in SI; undefined where none was given. */
export function amountOf(values: Values, id: string): number | undefined {
  const given = values[id];
  return given === undefined || given === null || 'choice' in given ? undefined : si(given.value, given.unit);
}

/** A value in SI that the calculator has asked for before it answers. */
export function needed(values: Values, id: string): number {
  return amountOf(values, id) ?? NaN;
}

/** What was chosen for a field. */
export function choiceOf(values: Values, id: string): string | undefined {
  const given = values[id];
  return given !== undefined && given !== null && 'choice' in given ? given.choice : undefined;
}

function applies(field: Field, values: Values): boolean {
  const { when, after = [] } = field;
  const chosen = when === undefined || when.is.includes(choiceOf(values, when.field) ?? '');
  return chosen && after.every((id) => values[id] !== null);
}

/** The fields of a calculator that these values leave in question, answered or not. */
export function fieldsFor(calculator: Calculator, values: Values): Field[] {
  return calculator.fields.filter((field) => applies(field, values));
}

/** Whether there is no answer without this field. */
export function isRequired(field: Field, calculator: Calculator, values: Values): boolean {
  if (isChoice(field) || field.optional !== true) return true;
  const { oneOf = [] } = calculator;
  return oneOf.includes(field.id) && oneOf.every((id) => id === field.id || values[id] === null);
}

/** Whether an answer can be worked out with these values. */
export function isEnough(calculator: Calculator, values: Values): boolean {
  const { oneOf = [] } = calculator;
  const given = (id: string): boolean => values[id] !== undefined && values[id] !== null;
  const required = fieldsFor(calculator, values).filter(
    (field) => isChoice(field) || field.optional !== true,
  );
  return required.every(({ id }) => given(id)) && (oneOf.length === 0 || oneOf.some(given));
}

/** The units that a field takes, given the other values. */
export function unitsOf(field: AmountField, values: Values): readonly Unit[] {
  const { without, units } = field;
  return without !== undefined && (values[without.field] ?? null) === null ? without.units : units;
}

/** Least and most that a field takes in a unit of its own, in that unit. */
export function rangeIn({ units, range, ranges }: AmountField, unit: Unit): Range {
  const own = ranges?.[unit];
  if (own !== undefined) return own;
  const factor = si(1, units[0] ?? unit) / si(1, unit);
  return [range[0] * factor, range[1] * factor];
}
