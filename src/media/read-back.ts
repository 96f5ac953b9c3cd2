/** Saying back what was heard, in words that differ from those that were heard. */
import type { PressureUnit } from '../calc/units.ts';
import type { Quantity } from '../knowledge/ids.ts';
import { digitsApart, numberInWords } from './number-words.ts';

export type SpokenLocale = 'en' | 'es';

/** A reading as it was understood. */
export interface HeardReading {
  quantity: Quantity;
  value: number;
  unit: PressureUnit | 'turns/min';
  unsteady?: boolean;
  earlier?: boolean;
}

/** Words of a language by their key and facts. */
export type Translate = (
  locale: SpokenLocale,
  key: string,
  facts?: Record<string, string | number>,
) => string;

/** Keys of units as they are said. */
const UNIT_KEYS: Record<HeardReading['unit'], string> = {
  psi: 'psi',
  bar: 'bar',
  kPa: 'kpa',
  inHg: 'inhg',
  ft: 'ft',
  m: 'm',
  'turns/min': 'turns',
};

function valueApart({ value, unit }: HeardReading, locale: SpokenLocale, translate: Translate): string {
  const [apart, together] = [digitsApart(value, locale), numberInWords(value, locale)];
  const number = apart === '' ? together : `${apart}, ${together}`;
  return `${number} ${translate(locale, `voice:unit.${UNIT_KEYS[unit]}`)}`;
}

function readingApart(reading: HeardReading, locale: SpokenLocale, translate: Translate): string {
  const name = translate(locale, `voice:quantity.${reading.quantity}`);
  const value = valueApart(reading, locale, translate);
  const how = reading.earlier === true ? 'earlier' : reading.unsteady === true ? 'unsteady' : 'now';
  return translate(locale, `voice:read-back.${how}`, { name, value });
}

/**
 * The question whether readings were heard rightly: "Filter pressure, one six, sixteen psi. Is that right?" Digits
 * come one by one first, as words that sound alike do not do so digit by digit. Empty for no readings.
 */
export function readBack(
  readings: readonly HeardReading[],
  locale: SpokenLocale,
  translate: Translate,
): string {
  if (readings.length === 0) return '';
  const said = readings.map((reading) => readingApart(reading, locale, translate)).join(' ');
  return translate(locale, 'voice:read-back.ask', { readings: said });
}
