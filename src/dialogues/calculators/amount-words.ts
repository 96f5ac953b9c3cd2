/** Amounts as texts: in the unit the person used, and results in the units of both worlds. */
import type { Text } from '../say.ts';
import { text } from '../say.ts';
import type { Given, Values } from './fields.ts';
import { si } from './units.ts';
import type { Unit } from './units.ts';

/** Digits of a result: more would promise what no tape and no gauge gives. */
const DIGITS = 3;

/** A number to the digits that are worth showing. */
export function rounded(value: number): number {
  return Number(value.toPrecision(DIGITS));
}

const WITHOUT_UNIT: readonly Unit[] = ['count', 'price'];

/** An amount with its unit, as it is. */
export function amountText(value: number, unit: Unit): Text {
  if (WITHOUT_UNIT.includes(unit)) return text('calculators:number', { value });
  if (unit === 'parts') return text('calculators:ratio', { value });
  // A fact called unit would be taken for an option of the number format.
  return text('calculators:amount', { value, measure: text(`calculators:unit.${unit}`) });
}

/** A value in SI shown in a unit, to the digits worth showing. */
export function shownIn(valueSi: number, unit: Unit): Text {
  return amountText(rounded(valueSi / si(1, unit)), unit);
}

/** A value in SI in several units, such as "30 gpm (6.81 m³/h)". */
export function shownInAll(valueSi: number, first: Unit, ...others: readonly Unit[]): Text {
  return text('calculators:also', {
    first: shownIn(valueSi, first),
    others: others.map((unit) => shownIn(valueSi, unit)),
  });
}

/** A value as the person gave it. */
export function givenText(given: Given | undefined): Text | undefined {
  if (given === undefined || given === null) return undefined;
  return 'choice' in given ? undefined : amountText(given.value, given.unit);
}

/** The amounts given for these fields, for repeating them: a slip of a unit shows. */
export function echoes(values: Values, ...ids: readonly string[]): Text[] {
  return ids.flatMap((id) => givenText(values[id]) ?? []);
}

/** A volume of water in the units of both worlds. */
export function volumeShown(volumeM3: number): Text {
  return shownInAll(volumeM3, 'gal', 'L', 'm3');
}

/** The units of a list that have a name. */
export function unitsText(units: readonly Unit[]): Text[] {
  return units
    .filter((unit) => unit !== 'count' && unit !== 'price')
    .map((unit) => text(`calculators:unit.${unit}`));
}
