/** Clean baselines of one pool, gathered by the speed they were read at, and questioned where they cannot be. */
import type { Gauges } from '../../calc/circulation.ts';
import { ATMOSPHERE_PA, M_PER_FT, WATER_N_PER_M3 } from '../../calc/units.ts';
import { GAUGE_KEYS, gaugeSdPa, scaleEndPa, type GaugeKey } from './gauge-error.ts';

/** Readings just after a filter clean with everything working. Suction counts positive. */
export type Baseline = Partial<Gauges> & {
  /** Speed over full speed at which these were read; without it the pool's usual speed. */
  readonly speedRatio?: number;
};

export type QuestionReason =
  /** Not a finite number, or below zero. */
  | 'not-a-reading'
  /** No gauge beside a pool shows as much. */
  | 'beyond-scale'
  /** The water would boil in the pump: no pump draws so hard in good order. */
  | 'vacuum-beyond-boiling'
  /** The tester shows more than the pump draws. */
  | 'suction-above-vacuum'
  /** Two clean baselines at one speed are further apart than gauge errors explain. */
  | 'baselines-disagree'
  /** Pressure and vacuum together are more head than any pump of this kind has. */
  | 'beyond-pump'
  /** Below what the heights of gauge and pump allow while water flows. */
  | 'pressure-too-low'
  | 'vacuum-too-low'
  /** No pipework that a pool of this kind may have shows these readings. */
  | 'unlike-any-pool';

/** Why baselines cannot be taken as they are, with the gauge to read again where one stands out. */
export interface Question {
  readonly reason: QuestionReason;
  readonly gauge?: GaugeKey;
  readonly valuePa?: number;
  /** The limit passed, or the other reading. */
  readonly limitPa?: number;
}

/** Mean of one gauge over the baselines at one speed. */
export interface MeanReading {
  readonly valuePa: number;
  readonly count: number;
}

/** Baselines read at one speed; `speedRatio` undefined is the pool's usual speed. */
export interface SpeedGroup {
  readonly speedRatio: number | undefined;
  readonly means: Partial<Record<GaugeKey, MeanReading>>;
}

/** A pump as far below the water as this shows that much less vacuum than its suction pipe loses. */
const LIFT_ALLOWANCE_PA = 5 * M_PER_FT * WATER_N_PER_M3;
const DISAGREE_SD = 6;

function questionOfValue(gauge: GaugeKey, valuePa: number): Question | undefined {
  if (!Number.isFinite(valuePa) || valuePa < 0) return { reason: 'not-a-reading', gauge, valuePa };
  // Water boils a few kPa short of outside pressure; a gauge may read a little high.
  const boiling = ATMOSPHERE_PA * 0.97;
  if (gauge !== 'filterPressurePa' && valuePa > boiling)
    return { reason: 'vacuum-beyond-boiling', gauge, valuePa, limitPa: boiling };
  const limitPa = scaleEndPa(gauge);
  return valuePa > limitPa ? { reason: 'beyond-scale', gauge, valuePa, limitPa } : undefined;
}

function questionOfOne(baseline: Baseline): Question | undefined {
  for (const gauge of GAUGE_KEYS) {
    const valuePa = baseline[gauge];
    const question = valuePa === undefined ? undefined : questionOfValue(gauge, valuePa);
    if (question) return question;
  }
  const { cleanerSuctionPa: suction, pumpVacuumPa: vacuum } = baseline;
  if (suction === undefined || vacuum === undefined) return undefined;
  const limitPa = vacuum + LIFT_ALLOWANCE_PA + 2 * gaugeSdPa('pumpVacuumPa', vacuum);
  return suction > limitPa
    ? { reason: 'suction-above-vacuum', gauge: 'cleanerSuctionPa', valuePa: suction, limitPa }
    : undefined;
}

function readingsOf(gauge: GaugeKey, baselines: readonly Baseline[]): number[] {
  return baselines.flatMap((baseline) => baseline[gauge] ?? []);
}

function disagreement(baselines: readonly Baseline[]): Question | undefined {
  for (const gauge of GAUGE_KEYS) {
    const values = readingsOf(gauge, baselines);
    const valuePa = Math.max(...values);
    const limitPa = Math.min(...values);
    if (valuePa - limitPa > DISAGREE_SD * gaugeSdPa(gauge, (valuePa + limitPa) / 2))
      return { reason: 'baselines-disagree', gauge, valuePa, limitPa };
  }
  return undefined;
}

function bySpeed(baselines: readonly Baseline[]): Baseline[][] {
  const groups = new Map<number | undefined, Baseline[]>();
  for (const baseline of baselines) {
    const speed = baseline.speedRatio;
    groups.set(speed, [...(groups.get(speed) ?? []), baseline]);
  }
  return [...groups.values()];
}

function groupOf(baselines: readonly Baseline[]): SpeedGroup {
  const means: Partial<Record<GaugeKey, MeanReading>> = {};
  for (const gauge of GAUGE_KEYS) {
    const values = readingsOf(gauge, baselines);
    if (values.length === 0) continue;
    const valuePa = values.reduce((sum, value) => sum + value, 0) / values.length;
    means[gauge] = { valuePa, count: values.length };
  }
  return { speedRatio: baselines[0]?.speedRatio, means };
}

/** How much a group tells: gauges first, then how often they were read. */
function worth(group: SpeedGroup): number {
  return Object.values(group.means).reduce((sum, mean) => sum + 100 + mean.count, 0);
}

/** What is wrong with the baselines by themselves, whatever the pool; undefined where nothing is. */
export function questionOfBaselines(baselines: readonly Baseline[]): Question | undefined {
  for (const baseline of baselines) {
    const question = questionOfOne(baseline);
    if (question) return question;
    const speed = baseline.speedRatio;
    if (speed !== undefined && !(speed > 0 && speed < 2)) return { reason: 'not-a-reading' };
  }
  for (const group of bySpeed(baselines)) {
    const question = disagreement(group);
    if (question) return question;
  }
  return undefined;
}

/** The baselines by speed, the group that tells most first. */
export function speedGroups(baselines: readonly Baseline[]): SpeedGroup[] {
  return bySpeed(baselines)
    .map(groupOf)
    .sort((a, b) => worth(b) - worth(a));
}
