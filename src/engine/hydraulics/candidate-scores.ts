/** Where each candidate pool stands in each thing that is not known: the same points every time. */
import { normalQuantile, spreadPoint } from './spread-points.ts';

const DIMENSION_NAMES = [
  'power',
  'shutOff',
  'largest',
  'suction',
  'discharge',
  'hose',
  'line',
  'other',
  'common',
  'media',
  'pumpHeight',
  'gaugeHeight',
  'speed',
  'warmth',
  'pressureError',
  'vacuumError',
  'suctionError',
  'dirt',
  'filterType',
  'efficiency',
] as const;
type Dimension = (typeof DIMENSION_NAMES)[number];
const DIMENSIONS = DIMENSION_NAMES.length;
const PLACE = Object.fromEntries(DIMENSION_NAMES.map((name, place) => [name, place])) as Record<
  Dimension,
  number
>;

/** Pools drawn before any is fitted. */
export const CANDIDATES = 192;
const EVEN = Float64Array.from({ length: CANDIDATES * DIMENSIONS }, (_, at) =>
  spreadPoint(Math.floor(at / DIMENSIONS), at % DIMENSIONS),
);
const SCORES = EVEN.map(normalQuantile);

/** Where candidate `index` stands in a dimension, evenly spread over (0, 1). */
export function even(index: number, dimension: Dimension): number {
  return EVEN[index * DIMENSIONS + PLACE[dimension]] ?? 0.5;
}

/** The same as a normal score. */
export function score(index: number, dimension: Dimension): number {
  return SCORES[index * DIMENSIONS + PLACE[dimension]] ?? 0;
}

/** The same as a factor whose logarithm has this standard deviation. */
export function lognormal(index: number, dimension: Dimension, spread: number): number {
  return Math.exp(spread * score(index, dimension));
}
