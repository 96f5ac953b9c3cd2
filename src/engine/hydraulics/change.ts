/** What a deliberate change at the pool would do to the gauges and the flow: tests that tell faults apart. */
import { operatingPoint, type PoolLoop } from '../../calc/circulation.ts';
import { withHoseOff } from '../../calc/typical-loop.ts';
import type { Equipment, Effect } from '../../knowledge/schema.ts';
import type { HydraulicModel } from './calibrate.ts';
import { weighedCases, type WeighedCase } from './cases.ts';
import { GAUGE_KEYS, type GaugeKey } from './gauge-error.ts';
import type { Readings } from './likelihood.ts';
import { gaugesShown } from './predictions.ts';
import { momentsOf, type Moments } from './quantiles.ts';

export type Change =
  /** The cleaner's hose taken off its port or plate. */
  | { readonly kind: 'hose-off' }
  /** The cleaner's valve closed and the skimmer's opened full; for a cleaner in the skimmer the same as hose-off. */
  | { readonly kind: 'skimmer-only' }
  | { readonly kind: 'pump-stopped' }
  /** Speed over the present one, above 0. */
  | { readonly kind: 'speed'; readonly ratio: number };

/** After less before: means and standard deviations over all that is not known. */
export type PredictedChange = Readonly<Record<GaugeKey | 'flowM3PerS', Moments>>;

/** A skimmer valve throttled for the cleaner has some ten times the loss of one that is open. Invented. */
const THROTTLED_SKIMMER = 10;

function skimmerOnly(loop: PoolLoop, equipment: Equipment): PoolLoop {
  if (equipment.connection === 'skimmer') return withHoseOff(loop);
  const { cleaner, other } = loop;
  return {
    ...loop,
    cleaner: { ...cleaner, opening: 0 },
    other: { loss: other.loss / THROTTLED_SKIMMER, opening: 1 },
  };
}

/** No pump turns as slowly as this; below it the arithmetic has nothing to hold on to either. */
const STANDS_STILL = 1e-6;

/** The loop after a change at the pool. A speed ratio that is no number above 0, or next to none, stops the pump. */
export function loopAfterChange(loop: PoolLoop, change: Change, equipment: Equipment = {}): PoolLoop {
  switch (change.kind) {
    case 'hose-off':
      return withHoseOff(loop);
    case 'skimmer-only':
      return skimmerOnly(loop, equipment);
    case 'pump-stopped':
      return atSpeed(loop, 0);
    case 'speed':
      return atSpeed(loop, change.ratio > STANDS_STILL && Number.isFinite(change.ratio) ? change.ratio : 0);
  }
}

function atSpeed(loop: PoolLoop, ratio: number): PoolLoop {
  return { ...loop, pump: { ...loop.pump, speedRatio: loop.pump.speedRatio * ratio } };
}

type Difference = Record<GaugeKey | 'flowM3PerS', number>;

function shownAt(loop: PoolLoop): Difference {
  const point = operatingPoint(loop);
  return { ...gaugesShown(loop, point), flowM3PerS: point.kind === 'flowing' ? point.flowM3PerS : 0 };
}

function difference(one: WeighedCase, change: Change, equipment: Equipment): Difference {
  const before = shownAt(one.loop);
  const after = shownAt(loopAfterChange(one.loop, change, equipment));
  const stuck = one.effect === 'gauge-stuck';
  return {
    filterPressurePa: stuck ? 0 : after.filterPressurePa - before.filterPressurePa,
    pumpVacuumPa: after.pumpVacuumPa - before.pumpVacuumPa,
    cleanerSuctionPa: after.cleanerSuctionPa - before.cleanerSuctionPa,
    flowM3PerS: after.flowM3PerS - before.flowM3PerS,
  };
}

/**
 * What a change would do under one effect, over the calibration and the severity; with readings taken before the
 * change, over what is left after them. Never throws, all numbers finite. Pa and m³/s.
 */
export function predictedChange(
  model: HydraulicModel,
  effect: Effect,
  change: Change,
  readings: Readings = {},
): PredictedChange {
  const differences = weighedCases(model, [[effect, 1]], readings).map((one) => ({
    weight: one.weight,
    by: difference(one, change, model.equipment),
  }));
  const moments = (key: GaugeKey | 'flowM3PerS'): Moments =>
    momentsOf(differences.map(({ by, weight }) => ({ value: by[key], weight })));
  const [pressure, vacuum, suction] = GAUGE_KEYS;
  return {
    [pressure]: moments(pressure),
    [vacuum]: moments(vacuum),
    [suction]: moments(suction),
    flowM3PerS: moments('flowM3PerS'),
  };
}
