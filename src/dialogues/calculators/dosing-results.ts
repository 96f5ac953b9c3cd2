/** What the calculators of filter care answer. */
import { bathParts, deChargeKg, waterSentM3 } from '../../calc/dosing.ts';
import type { Text } from '../say.ts';
import { text } from '../say.ts';
import { echoes, shownInAll, volumeShown } from './amount-words.ts';
import type { Values } from './fields.ts';
import { amountOf, needed } from './fields.ts';

/** The charge of a filter by its area. */
export function deResult(values: Values): Text[] {
  const charge = shownInAll(deChargeKg(needed(values, 'area')), 'lb', 'kg');
  return [
    text('calculators:de.answer', { given: echoes(values, 'area'), charge }),
    text('calculators:de.label'),
  ];
}

/** The water that a backwash sends out. */
export function backwashResult(values: Values): Text[] {
  const sent = waterSentM3(needed(values, 'flow'), needed(values, 'minutes'));
  return [
    text('calculators:backwash.answer', {
      given: echoes(values, 'minutes', 'flow'),
      volume: volumeShown(sent),
    }),
    text('calculators:backwash.top-up'),
  ];
}

/** Common practice, no source: 1 part of acid to 20 of water. */
const USUAL_WATER_PARTS = 20;

/** A bath for filter elements: grease first, then acid into water. */
export function soakResult(values: Values): Text[] {
  const parts = amountOf(values, 'ratio') ?? USUAL_WATER_PARTS;
  const { waterM3, acidM3 } = bathParts(needed(values, 'bath'), parts);
  const bath = echoes(values, 'bath');
  return [
    text('calculators:soak.degrease', { bath }),
    text('calculators:soak.acid', {
      bath,
      parts,
      water: shownInAll(waterM3, 'L', 'gal'),
      acid: shownInAll(acidM3, 'L', 'gal'),
    }),
    text('calculators:soak.label'),
  ];
}
