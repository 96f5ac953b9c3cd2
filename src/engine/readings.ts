/**
 * How likely readings are under each effect of a fault. Filter pressure and pump vacuum are judged by a model of this
 * pool's own water path; so is the tester in the cleaner's hose where the pool has a clean reading of it. A tester
 * without one shows its own scale, and wheels turn on no gauge: those go by rules of thumb.
 */
import { normalCdf } from '../calc/belief.ts';
import { isQuantity, QUANTITIES } from '../knowledge/ids.ts';
import type { Quantity } from '../knowledge/ids.ts';
import type { Effect } from '../knowledge/schema.ts';
import { EFFECTS } from '../knowledge/schema.ts';
import type { Gauges, Setting } from './case.ts';
import { BANDS, bandEdges, referenceFor } from './gauge.ts';
import { calibrate } from './hydraulics/calibrate.ts';
import type { HydraulicModel } from './hydraulics/calibrate.ts';
import type { KnownFacts } from './hydraulics/prior.ts';
import type { CirculationQuantity, Readings } from './hydraulics/likelihood.ts';
import { bandProbabilities, effectLogLikelihoods, gaugeOf } from './hydraulics/likelihood.ts';
import { recently } from './recently.ts';

export type Known = Pick<Setting, 'equipment' | 'baseline' | 'cleanSets' | 'figures'>;

/** The figures as the hydraulics name them. */
function knownFacts({ figures }: Known): KnownFacts {
  const ratedPowerW = figures?.['rated-power'];
  const filterAreaM2 = figures?.['filter-area'];
  return {
    ...(ratedPowerW === undefined ? {} : { ratedPowerW }),
    ...(filterAreaM2 === undefined ? {} : { filterAreaM2 }),
  };
}

/** Readings as the hydraulics name them; wheels are no gauge of theirs. */
export function circulationReadings(gauges: Gauges): Readings {
  const entries = QUANTITIES.flatMap((quantity) => {
    const value = gauges[quantity];
    return quantity === 'wheel-turns' || value === undefined ? [] : [[gaugeOf(quantity), value] as const];
  });
  return Object.fromEntries(entries);
}

/** The model of the pool's water path. Clean readings that contradict each other are left out. */
function freshModel(known: Known): HydraulicModel {
  const { equipment, cleanSets } = known;
  for (const sets of [cleanSets, cleanSets.slice(-1), []]) {
    const result = calibrate(equipment, sets.map(circulationReadings), knownFacts(known));
    if (result.kind === 'calibrated') return result.model;
  }
  throw new Error('A pool without clean readings always has a model');
}

/** Why clean readings cannot all be right: they disagree with each other, or no such pool could show them. */
export function doubtOfClean(known: Known): 'disagree' | 'odd' | undefined {
  const result = calibrate(known.equipment, known.cleanSets.map(circulationReadings), knownFacts(known));
  if (result.kind === 'calibrated') return undefined;
  return result.question.reason === 'baselines-disagree' ? 'disagree' : 'odd';
}

const models = recently<Known, HydraulicModel>(200, freshModel, ({ equipment, cleanSets, figures }) => {
  const { cleaner, connection, pump, filter } = equipment;
  return JSON.stringify([cleaner, connection, pump, filter, cleanSets, figures]);
});

/** The hydraulic model of a pool as it is known now; kept, as a case asks for it at every turn. */
export function hydraulicModel(known: Known): HydraulicModel {
  return models(known);
}

/** ln(reading / usual) under an effect, where a rule of thumb must do. Common practice, no source. */
type Shift = readonly [mean: number, deviation: number];
const STILL: Shift = [0, 0.07];
const THUMB: Partial<Record<Effect, Partial<Record<Quantity, Shift>>>> = {
  'cleaner-branch-blocked': { 'cleaner-suction': [0.5, 0.35] },
  'cleaner-branch-closed': { 'cleaner-suction': [-0.6, 0.35] },
  'cleaner-branch-bypassed': { 'cleaner-suction': [-0.7, 0.35] },
  'suction-blocked': { 'cleaner-suction': [-0.6, 0.35] },
  'air-at-pump': { 'cleaner-suction': [-0.5, 0.35] },
  'air-in-hose': { 'cleaner-suction': [-0.5, 0.35] },
  'pump-curve-shrinks': { 'cleaner-suction': [-0.7, 0.35] },
  'pump-speed-low': { 'cleaner-suction': [-0.9, 0.4] },
  'pump-speed-sags': { 'cleaner-suction': [-0.25, 0.25] },
  'filter-blocked': { 'cleaner-suction': [-0.5, 0.3] },
  'filter-torn': { 'cleaner-suction': [0.08, 0.08] },
  'return-blocked': { 'cleaner-suction': [-0.6, 0.3] },
  'cleaner-pressure-low': { 'wheel-turns': [-0.45, 0.25] },
};
const STANDS_STILL: Partial<Record<Effect, Quantity>> = {
  'no-flow': 'cleaner-suction',
  'cleaner-pressure-off': 'wheel-turns',
};

/** Probability of each band of a reading that goes by a rule of thumb. Sums to one. */
function thumbBands(quantity: Quantity, effect: Effect, { baseline }: Known): number[] {
  const [mean, deviation] = THUMB[effect]?.[quantity] ?? STILL;
  const { value, spread } = referenceFor(quantity, baseline);
  const zero = STANDS_STILL[effect] === quantity ? 0.95 : 0.005;
  const scale = Math.hypot(deviation, spread);
  const share = (edge: number): number => normalCdf((Math.log(edge / value) - mean) / scale);
  const below = [0, ...bandEdges(quantity, baseline).slice(1).map(share), 1];
  return [zero, ...below.slice(1).map((upper, band) => (1 - zero) * (upper - (below[band] ?? 0)))];
}

function byHydraulics(quantity: Quantity, { baseline }: Known): quantity is CirculationQuantity {
  if (quantity === 'wheel-turns') return false;
  return quantity !== 'cleaner-suction' || baseline[quantity] !== undefined;
}

/** Probability of each band of a gauge under an effect, in the order of `BANDS`. Sums to one. */
export function bandsUnder(quantity: Quantity, effect: Effect, known: Known): number[] {
  if (!byHydraulics(quantity, known)) return thumbBands(quantity, effect, known);
  return bandProbabilities(hydraulicModel(known), quantity, effect, bandEdges(quantity, known.baseline));
}

function thumbLikelihood(quantity: Quantity, value: number, effect: Effect, known: Known): number {
  const edges = bandEdges(quantity, known.baseline);
  const band = edges.findIndex((edge) => value < edge);
  return thumbBands(quantity, effect, known)[band === -1 ? BANDS.length - 1 : band] ?? 0;
}

function scaledToOne(likelihoods: Record<Effect, number>): Record<Effect, number> {
  const most = Math.max(...Object.values(likelihoods));
  return Object.fromEntries(EFFECTS.map((effect) => [effect, likelihoods[effect] / most])) as Record<
    Effect,
    number
  >;
}

/**
 * Likelihood of readings taken together under each effect, up to a common factor; the largest is 1. A needle said to
 * shake speaks for air; one of which nothing was said tells nothing.
 */
export function effectLikelihoods(gauges: Gauges, known: Known, shakes = false): Record<Effect, number> {
  const quantities = Object.keys(gauges).filter(isQuantity);
  const modelled = Object.fromEntries(
    Object.entries(gauges).filter(([id]) => isQuantity(id) && byHydraulics(id, known)),
  ) as Gauges;
  const needle = shakes ? ({ needle: 'shakes' } as const) : {};
  const read = { ...circulationReadings(modelled), ...needle };
  const logs = effectLogLikelihoods(hydraulicModel(known), read);
  const most = Math.max(...Object.values(logs));
  const likelihood = (effect: Effect): number =>
    quantities
      .filter((quantity) => !byHydraulics(quantity, known))
      .reduce(
        (product, quantity) => product * thumbLikelihood(quantity, gauges[quantity] ?? 0, effect, known),
        Math.exp(logs[effect] - most),
      );
  return scaledToOne(
    Object.fromEntries(EFFECTS.map((effect) => [effect, likelihood(effect)])) as Record<Effect, number>,
  );
}
