/** What the gauges of every member would show under every effect and severity: counted once for each model. */
import {
  operatingPoint,
  restingGauges,
  type Gauges,
  type OperatingPoint,
  type PoolLoop,
} from '../../calc/circulation.ts';
import type { Effect } from '../../knowledge/schema.ts';
import type { HydraulicModel } from './calibrate.ts';
import { loopUnderFault, movesNothing } from './faults.ts';
import type { Member } from './fit-candidate.ts';
import { shakeProbability, together, unsteadySdPa, type GaugeKey } from './gauge-error.ts';

/** A gauge's foretold reading in each case, and one over its standard deviation; Pa. */
interface GaugeColumn {
  readonly meanPa: Float64Array;
  readonly perSd: Float64Array;
}

/** Cases (a member at a severity) of one effect, column by column. Weights sum to one. */
export interface EffectTable {
  readonly size: number;
  readonly weight: Float64Array;
  readonly severity: Float64Array;
  /** Index into the model's members. */
  readonly member: Uint16Array;
  /** Probability that the needle of a gauge shakes. */
  readonly shakes: Float64Array;
  readonly gauges: Readonly<Record<GaugeKey, GaugeColumn>>;
}

/** Severities are taken at the middles of equal steps. */
function middles(steps: number): number[] {
  return Array.from({ length: steps }, (_, step) => (step + 0.5) / steps);
}

const SEVERITIES = middles(5);
/** A pump goes from hardly noticing air to losing its prime within a factor of three of the hole. */
const FINE_SEVERITIES = middles(7);
const ONE_SEVERITY = [0.5];

/** The pool as it runs on an ordinary day: the filter a little dirtier than just after its clean. */
export function ordinaryDay(member: Member): PoolLoop {
  const { filter } = member.loop;
  return { ...member.loop, filter: { ...filter, linear: filter.linear * member.usualDirt } };
}

/** What the gauges show: they stop at zero, and show rest where nothing flows. */
export function gaugesShown(loop: PoolLoop, point: OperatingPoint): Gauges {
  const shown = point.kind === 'flowing' ? point : restingGauges(loop);
  return {
    filterPressurePa: Math.max(0, shown.filterPressurePa),
    pumpVacuumPa: Math.max(0, shown.pumpVacuumPa),
    cleanerSuctionPa: Math.max(0, shown.cleanerSuctionPa),
  };
}

/**
 * Where a stuck filter gauge stands over the clean reading: at its pin one time in five, else anywhere about
 * where it was, which is where it stood most of its life.
 */
const STUCK_AT = [0, 0.5, 0.85, 1.2, 1.9];
const STUCK_SD_SHARE = 0.22;

function severitiesOf(effect: Effect): readonly number[] {
  if (effect === 'air-at-pump') return FINE_SEVERITIES;
  if (effect === 'gauge-stuck') return SEVERITIES;
  return effect === 'no-flow' || movesNothing(effect) ? ONE_SEVERITY : SEVERITIES;
}

function emptyTable(size: number): EffectTable {
  const column = (): GaugeColumn => ({ meanPa: new Float64Array(size), perSd: new Float64Array(size) });
  return {
    size,
    weight: new Float64Array(size),
    severity: new Float64Array(size),
    member: new Uint16Array(size),
    shakes: new Float64Array(size),
    gauges: { filterPressurePa: column(), pumpVacuumPa: column(), cleanerSuctionPa: column() },
  };
}

/** The model is the less sure of a reading, the further a fault moves it: share of the move. */
const UNSURE_OF_MOVE = 0.15;

function writeGauge(
  table: EffectTable,
  at: number,
  gauge: GaugeKey,
  shownPa: number,
  cleanPa: number,
  air: number | 'no-flow',
): void {
  const { meanPa, perSd } = table.gauges[gauge];
  const moved = air === 'no-flow' ? 0 : UNSURE_OF_MOVE * (shownPa - cleanPa);
  meanPa[at] = shownPa;
  perSd[at] = 1 / together(unsteadySdPa(gauge, shownPa, air), moved);
}

/** Written out gauge by gauge: this is where the time of a new pool goes. */
function writeGauges(table: EffectTable, at: number, loop: PoolLoop, clean: Gauges): void {
  const point = operatingPoint(loop);
  const shown = gaugesShown(loop, point);
  const air = point.kind === 'flowing' ? point.airFraction : 'no-flow';
  table.shakes[at] = shakeProbability(air);
  writeGauge(table, at, 'filterPressurePa', shown.filterPressurePa, clean.filterPressurePa, air);
  writeGauge(table, at, 'pumpVacuumPa', shown.pumpVacuumPa, clean.pumpVacuumPa, air);
  writeGauge(table, at, 'cleanerSuctionPa', shown.cleanerSuctionPa, clean.cleanerSuctionPa, air);
}

function writeStuck(table: EffectTable, at: number, step: number): void {
  const { meanPa, perSd } = table.gauges.filterPressurePa;
  const clean = meanPa[at] ?? 0;
  const stuckPa = clean * (STUCK_AT[step] ?? 1);
  meanPa[at] = stuckPa;
  perSd[at] =
    1 / together(unsteadySdPa('filterPressurePa', stuckPa, 0), stuckPa > 0 ? STUCK_SD_SHARE * clean : 0);
}

function tableOfEffect(model: HydraulicModel, effect: Effect): EffectTable {
  const severities = severitiesOf(effect);
  const table = emptyTable(model.members.length * severities.length);
  let at = 0;
  model.members.forEach((member, index) => {
    const day = ordinaryDay(member);
    severities.forEach((severity, step) => {
      table.weight[at] = member.weight / severities.length;
      table.severity[at] = severity;
      table.member[at] = index;
      writeGauges(table, at, loopUnderFault(day, effect, severity), member.clean);
      if (effect === 'gauge-stuck') writeStuck(table, at, step);
      at += 1;
    });
  });
  return table;
}

const KEPT = new WeakMap<HydraulicModel, Map<Effect, EffectTable>>();

/** Effects that no gauge of the circulation sees share one table. */
function tableKey(effect: Effect): Effect {
  return movesNothing(effect) && effect !== 'gauge-stuck' ? 'none' : effect;
}

function keptFor(model: HydraulicModel): Map<Effect, EffectTable> {
  const kept = KEPT.get(model) ?? new Map<Effect, EffectTable>();
  KEPT.set(model, kept);
  return kept;
}

/** Foretold readings under one effect; counted at the first call and kept as long as the model is. */
export function predictionsOf(model: HydraulicModel, effect: Effect): EffectTable {
  const tables = keptFor(model);
  const key = tableKey(effect);
  const kept = tables.get(key);
  if (kept) return kept;
  const made = tableOfEffect(model, key);
  tables.set(key, made);
  return made;
}
