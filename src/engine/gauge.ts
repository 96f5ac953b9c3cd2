/** A single gauge: what it is judged against, in which band it stands, whether it can be right at all. */
import { fromPascal, PA_PER_INHG, PA_PER_PSI } from '../calc/units.ts';
import type { Quantity } from '../knowledge/ids.ts';
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

/** The edges between the bands, rising, in SI. */
export function bandEdges(quantity: Quantity, baseline: Gauges): number[] {
  const { value } = referenceFor(quantity, baseline);
  return BAND_ENDS.map((end) => value * Math.exp(end));
}

/** The band a reading falls in. A zero or negative reading is the lowest. */
export function bandOf(quantity: Quantity, value: number, baseline: Gauges): Band {
  const index = bandEdges(quantity, baseline).findIndex((edge) => value < edge);
  return BANDS[index === -1 ? BANDS.length - 1 : index] ?? 'normal';
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
