/**
 * How likely a reading is under a fault: first form, by which way the fault moves the gauge from this pool's
 * clean reading. Shifts are natural logarithms of reading over clean reading; common practice, no source.
 */
import { normalCdf } from '../calc/belief.ts';
import { fromPascal, PA_PER_INHG, PA_PER_PSI } from '../calc/units.ts';
import type { Quantity } from '../knowledge/ids.ts';
import type { Effect } from '../knowledge/schema.ts';
import type { Gauges } from './case.ts';

/** Bands of a reading against the clean one, from nothing to far above. */
export const BANDS = ['zero', 'far-below', 'below', 'normal', 'above', 'far-above'] as const;
export type Band = (typeof BANDS)[number];

const BAND_ENDS = [Math.log(0.08), Math.log(0.55), Math.log(0.82), Math.log(1.25), Math.log(1.7)];

interface Reference {
  /** Clean reading in SI. */
  value: number;
  /** Standard deviation of ln(reading / clean) for the same pool on another clean day, or for pools at large. */
  spread: number;
  ownBaseline: boolean;
}

/** Typical clean readings where a pool has none of its own. Common practice, no source. */
const TYPICAL: Record<Quantity, { value: number; spread: number }> = {
  'filter-pressure': { value: 15 * PA_PER_PSI, spread: 0.35 },
  'pump-vacuum': { value: 7 * PA_PER_INHG, spread: 0.45 },
  'cleaner-suction': { value: 2.5 * PA_PER_INHG, spread: 0.2 },
  'wheel-turns': { value: 30, spread: 0.06 },
};
const OWN_SPREAD = 0.06;

/** What a reading is judged against: the pool's own clean reading, else a rule of thumb marked as such. */
export function referenceFor(quantity: Quantity, baseline: Gauges): Reference {
  const own = baseline[quantity];
  if (own !== undefined && own > 0) return { value: own, spread: OWN_SPREAD, ownBaseline: true };
  return { ...TYPICAL[quantity], ownBaseline: false };
}

/** The band a reading falls in. A zero or negative reading is the lowest. */
export function bandOf(quantity: Quantity, value: number, baseline: Gauges): Band {
  const ratio = value / referenceFor(quantity, baseline).value;
  if (ratio <= 0) return 'zero';
  const index = BAND_ENDS.findIndex((end) => Math.log(ratio) < end);
  return BANDS[index === -1 ? BANDS.length - 1 : index] ?? 'normal';
}

type Shift = readonly [mean: number, deviation: number];
const STILL: Shift = [0, 0.07];

const SHIFTS: Record<Effect, Partial<Record<Quantity, Shift>>> = {
  none: {},
  'cleaner-branch-blocked': {
    'filter-pressure': [-0.15, 0.15],
    'pump-vacuum': [0.35, 0.25],
    'cleaner-suction': [0.5, 0.35],
  },
  'cleaner-branch-closed': {
    'filter-pressure': [-0.15, 0.15],
    'pump-vacuum': [0.35, 0.25],
    'cleaner-suction': [-0.6, 0.35],
  },
  'cleaner-branch-bypassed': {
    'filter-pressure': [0.12, 0.1],
    'pump-vacuum': [-0.4, 0.25],
    'cleaner-suction': [-0.7, 0.35],
  },
  'suction-blocked': {
    'filter-pressure': [-0.6, 0.3],
    'pump-vacuum': [0.6, 0.3],
    'cleaner-suction': [-0.7, 0.35],
  },
  'air-at-pump': {
    'filter-pressure': [-0.5, 0.35],
    'pump-vacuum': [-0.45, 0.3],
    'cleaner-suction': [-0.5, 0.35],
  },
  'air-in-hose': {
    'filter-pressure': [-0.2, 0.25],
    'pump-vacuum': [-0.25, 0.25],
    'cleaner-suction': [-0.4, 0.35],
  },
  'pump-curve-shrinks': {
    'filter-pressure': [-0.7, 0.35],
    'pump-vacuum': [-0.7, 0.35],
    'cleaner-suction': [-0.7, 0.35],
  },
  'pump-speed-low': {
    'filter-pressure': [-0.9, 0.4],
    'pump-vacuum': [-0.9, 0.4],
    'cleaner-suction': [-0.9, 0.4],
  },
  'no-flow': {},
  'filter-blocked': {
    'filter-pressure': [0.5, 0.2],
    'pump-vacuum': [-0.4, 0.25],
    'cleaner-suction': [-0.5, 0.3],
  },
  'filter-torn': {
    'filter-pressure': [-0.25, 0.15],
    'pump-vacuum': [0.08, 0.08],
    'cleaner-suction': [0.08, 0.08],
  },
  'return-blocked': {
    'filter-pressure': [0.6, 0.3],
    'pump-vacuum': [-0.5, 0.3],
    'cleaner-suction': [-0.6, 0.3],
  },
  'gauge-stuck': { 'filter-pressure': [0, 0.8] },
  'cleaner-pressure-low': { 'wheel-turns': [-0.45, 0.25] },
  'cleaner-pressure-off': {},
};

/** Probability that the gauge stands at nothing. */
function zeroShare(quantity: Quantity, effect: Effect): number {
  if (effect === 'no-flow') return 0.93;
  if (effect === 'cleaner-pressure-off' && quantity === 'wheel-turns') return 0.96;
  if (effect === 'gauge-stuck' && quantity === 'filter-pressure') return 0.25;
  return 0.005;
}

/** Probability of each band of a reading under a fault with this effect, in the order of `BANDS`. Sums to one. */
export function bandProbabilities(quantity: Quantity, effect: Effect, baseline: Gauges): number[] {
  const [mean, deviation] = SHIFTS[effect][quantity] ?? STILL;
  const spread = Math.hypot(deviation, referenceFor(quantity, baseline).spread);
  const zero = zeroShare(quantity, effect);
  const below = [0, ...BAND_ENDS.slice(1).map((end) => normalCdf((end - mean) / spread)), 1];
  const others = below.slice(1).map((upper, index) => (1 - zero) * (upper - (below[index] ?? 0)));
  return [zero, ...others];
}

/** Highest value that each instrument can show in earnest, in SI; above it the reading is questioned. */
const HIGHEST: Record<Quantity, number> = {
  'filter-pressure': 60 * PA_PER_PSI,
  'pump-vacuum': 29.9 * PA_PER_INHG,
  'cleaner-suction': 29.9 * PA_PER_INHG,
  'wheel-turns': 120,
};

/** Whether a reading can be real; a suction cannot pass the vacuum of 29.9 inHg, and a count cannot be negative. */
export function isPossible(quantity: Quantity, value: number): boolean {
  return Number.isFinite(value) && value >= 0 && value <= HIGHEST[quantity];
}

/** Likely slips behind an impossible value: a lost decimal point, a digit too many, a wrong sign. */
export function likelySlips(quantity: Quantity, value: number): number[] {
  const candidates = [Math.abs(value), Math.abs(value) / 10, Math.abs(value) / 100];
  return candidates.filter((slip) => slip !== value && slip > 0 && isPossible(quantity, slip)).slice(0, 2);
}

/** A pressure in its customary unit, rounded to a tenth: what a gauge would show. */
export function shown(quantity: Quantity, value: number): { value: number; unit: string } {
  const round = (x: number): number => Math.round(x * 10) / 10;
  if (quantity === 'wheel-turns') return { value: round(value), unit: 'turns/min' };
  const unit = quantity === 'filter-pressure' ? 'psi' : 'inHg';
  return { value: round(fromPascal(value, unit)), unit };
}
