/** How far a gauge beside a pool may stand from the truth. Pa throughout; invented within common practice, no source. */
import type { Gauges } from '../../calc/circulation.ts';
import { PA_PER_INHG, PA_PER_PSI } from '../../calc/units.ts';

export type GaugeKey = keyof Gauges;
export const GAUGE_KEYS = ['filterPressurePa', 'pumpVacuumPa', 'cleanerSuctionPa'] as const;

interface GaugeError {
  /** Reading between the marks, and a cheap spring: never better than this. */
  readonly leastPa: number;
  /** Share of the reading. */
  readonly share: number;
  /** End of the scale. */
  readonly scalePa: number;
}

const ERRORS: Record<GaugeKey, GaugeError> = {
  filterPressurePa: { leastPa: 0.7 * PA_PER_PSI, share: 0.04, scalePa: 60 * PA_PER_PSI },
  pumpVacuumPa: { leastPa: 0.5 * PA_PER_INHG, share: 0.05, scalePa: 29.9 * PA_PER_INHG },
  cleanerSuctionPa: { leastPa: 0.3 * PA_PER_INHG, share: 0.08, scalePa: 29.9 * PA_PER_INHG },
};

/** Standard deviation of one reading, Pa: the larger of a least error and a share. Any finite value. */
export function gaugeSdPa(gauge: GaugeKey, valuePa: number): number {
  const { leastPa, share } = ERRORS[gauge];
  return Math.max(leastPa, share * Math.abs(valuePa));
}

/** Half of a gauge's error variance is its own and the same every time; the rest is averaged out by more readings. */
const LASTING_VARIANCE = 0.5;

/** Standard deviation of the mean of `count` (1 or more) readings of one gauge, Pa. */
export function meanReadingSdPa(gauge: GaugeKey, valuePa: number, count: number): number {
  return gaugeSdPa(gauge, valuePa) * Math.sqrt(LASTING_VARIANCE + (1 - LASTING_VARIANCE) / count);
}

/** A needle shakes by this share of its reading for each unit of gas fraction, and never by more than the cap. */
const SHAKE_PER_GAS_FRACTION = 4;
const MOST_SHAKE = 0.25;
/** A pump without prime holds some of its column for a while: its vacuum is only loosely that of rest. */
const NO_FLOW_SD_PA: Record<GaugeKey, number> = {
  filterPressurePa: 0,
  pumpVacuumPa: 0.6 * PA_PER_INHG,
  cleanerSuctionPa: 0,
};

/** Standard deviation of the sum of two independent errors. Written out: Math.hypot guards against overflow and is slow. */
export function together(a: number, b: number): number {
  return Math.sqrt(a * a + b * b);
}

/** Standard deviation of a reading with air in the water (gas fraction 0 to 0.08), or with nothing flowing, Pa. */
export function unsteadySdPa(gauge: GaugeKey, valuePa: number, airFraction: number | 'no-flow'): number {
  const steady = gaugeSdPa(gauge, valuePa);
  if (airFraction === 'no-flow') return together(steady, NO_FLOW_SD_PA[gauge]);
  return together(steady, valuePa * Math.min(MOST_SHAKE, SHAKE_PER_GAS_FRACTION * airFraction));
}

/** End of a gauge's scale, Pa: no reading is above it. */
export function scaleEndPa(gauge: GaugeKey): number {
  return ERRORS[gauge].scalePa;
}

/** Probability that a needle shakes without air, and that it does with plenty of it (common practice, no source). */
export const CALM_SHAKE = 0.04;
const AIRY_SHAKE = 0.97;
/** Gas fraction from which a needle shakes as it does with plenty. */
const PLENTY_OF_AIR = 0.02;

/** Probability that a person sees the needle shake, at a gas fraction of 0 to 1 or with nothing flowing. */
export function shakeProbability(airFraction: number | 'no-flow'): number {
  if (airFraction === 'no-flow') return CALM_SHAKE;
  return CALM_SHAKE + (AIRY_SHAKE - CALM_SHAKE) * Math.min(1, airFraction / PLENTY_OF_AIR);
}
