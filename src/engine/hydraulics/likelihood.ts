/** How likely gauges read together are under each effect, over all that is not known of the pool and the severity. */
import { normalCdf } from '../../calc/belief.ts';
import type { Gauges } from '../../calc/circulation.ts';
import type { Quantity } from '../../knowledge/ids.ts';
import { EFFECTS, type Effect } from '../../knowledge/schema.ts';
import type { HydraulicModel } from './calibrate.ts';
import { CALM_SHAKE, GAUGE_KEYS, scaleEndPa, type GaugeKey } from './gauge-error.ts';
import { predictionsOf, type EffectTable } from './predictions.ts';

/** Gauges read at the same time, SI. What is not finite counts as not read. */
export type Readings = Partial<Gauges> & {
  /** Whether a needle shook; left out where nobody said. */
  needle?: 'steady' | 'shakes';
};

/** The gauges that the circulation moves. */
export type CirculationQuantity = Exclude<Quantity, 'wheel-turns'>;

const GAUGE_OF: Record<CirculationQuantity, GaugeKey> = {
  'filter-pressure': 'filterPressurePa',
  'pump-vacuum': 'pumpVacuumPa',
  'cleaner-suction': 'cleanerSuctionPa',
};

/** The gauge behind a quantity of the trade. */
export function gaugeOf(quantity: CirculationQuantity): GaugeKey {
  return GAUGE_OF[quantity];
}

/** Share of readings that follow no model: a slip, two faults at once, a fault nobody listed. */
const BACKGROUND = 0.02;
const PER_ROOT_TWO_PI = 1 / Math.sqrt(2 * Math.PI);

function gaugesRead(readings: Readings): GaugeKey[] {
  return GAUGE_KEYS.filter((gauge) => Number.isFinite(readings[gauge]));
}

/** Densities below this many squared standard deviations are none beside the background. */
const FAR = 40;

/** One gauge's share of the squared scores and of the scale, over all cases of a table. */
function addGauge(
  { meanPa, perSd }: { readonly meanPa: Float64Array; readonly perSd: Float64Array },
  readingPa: number,
  squares: Float64Array,
  scales: Float64Array,
): void {
  for (let at = 0; at < meanPa.length; at += 1) {
    const inverse = perSd[at] ?? 0;
    const score = (readingPa - (meanPa[at] ?? 0)) * inverse;
    squares[at] = (squares[at] ?? 0) + score * score;
    scales[at] = (scales[at] ?? 0) * inverse * PER_ROOT_TWO_PI;
  }
}

/** Density of the readings in every case of a table, times the case's weight; 1/Pa for each gauge read. */
export function caseDensities(table: EffectTable, readings: Readings): Float64Array {
  const squares = new Float64Array(table.size);
  const densities = table.weight.slice();
  for (const gauge of gaugesRead(readings))
    addGauge(table.gauges[gauge], readings[gauge] ?? 0, squares, densities);
  for (let at = 0; at < densities.length; at += 1) {
    const square = squares[at] ?? 0;
    densities[at] = square > FAR ? 0 : (densities[at] ?? 0) * Math.exp(-0.5 * square);
  }
  const { needle } = readings;
  if (needle === undefined) return densities;
  return densities.map((density, at) => density * needleLikelihood(needle, table.shakes[at] ?? 0));
}

/** Where nobody spoke of the needle it tells nothing: most people would not mention that it stands still. */
function needleLikelihood(needle: Readings['needle'], shakes: number): number {
  if (needle === undefined) return 1;
  return needle === 'shakes' ? shakes : 1 - shakes;
}

function backgroundDensity(read: readonly GaugeKey[], needle: Readings['needle']): number {
  return read.reduce((density, gauge) => density / scaleEndPa(gauge), needleLikelihood(needle, CALM_SHAKE));
}

function logLikelihood(table: EffectTable, read: readonly GaugeKey[], readings: Readings): number {
  const densities = caseDensities(table, readings);
  let density = 0;
  for (let at = 0; at < densities.length; at += 1) density += densities[at] ?? 0;
  return Math.log((1 - BACKGROUND) * density + BACKGROUND * backgroundDensity(read, readings.needle));
}

/**
 * Logarithm of the density of readings taken together under one effect, 1/Pa for each gauge read; compare only
 * between effects on the same readings. 0 where nothing was read. Finite for any input, and never throws.
 */
export function readingsLogLikelihood(model: HydraulicModel, effect: Effect, readings: Readings): number {
  const read = gaugesRead(readings);
  return read.length === 0 ? 0 : logLikelihood(predictionsOf(model, effect), read, readings);
}

/** The same for every effect at once. */
export function effectLogLikelihoods(model: HydraulicModel, readings: Readings): Record<Effect, number> {
  const all = EFFECTS.map((effect) => [effect, readingsLogLikelihood(model, effect, readings)] as const);
  return Object.fromEntries(all) as Record<Effect, number>;
}

/** Probability that the reading lies below an edge; a gauge stops at zero, so all that would be lower shows there. */
function shareBelow(table: EffectTable, gauge: GaugeKey, edgePa: number): number {
  if (!(edgePa > 0)) return 0;
  const { meanPa, perSd } = table.gauges[gauge];
  let share = 0;
  for (let at = 0; at < table.size; at += 1)
    share += (table.weight[at] ?? 0) * normalCdf((edgePa - (meanPa[at] ?? 0)) * (perSd[at] ?? 0));
  return (1 - BACKGROUND) * share + BACKGROUND * Math.min(1, edgePa / scaleEndPa(gauge));
}

/**
 * Probability that a gauge read under an effect falls in each band. `edgesPa` rising; one band more than edges:
 * below the first (a needle at its pin included), between each two, above the last. Sums to one. None is zero
 * unless its band lies wholly below zero or past the end of the scale.
 */
export function bandProbabilities(
  model: HydraulicModel,
  quantity: CirculationQuantity,
  effect: Effect,
  edgesPa: readonly number[],
): number[] {
  const table = predictionsOf(model, effect);
  const shares = [0, ...edgesPa.map((edge) => shareBelow(table, GAUGE_OF[quantity], edge)), 1];
  return shares.slice(1).map((share, band) => Math.max(0, share - (shares[band] ?? 0)));
}
