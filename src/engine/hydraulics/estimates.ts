/** What a technician wants to know of a pool, as numbers with their 10, 50 and 90 % points. SI. */
import { operatingPoint, type FlowingPoint, type PoolLoop } from '../../calc/circulation.ts';
import { filterLoadingMPerS, LOADING_LIMIT_M_PER_S, type FilterType } from '../../calc/filter-loss.ts';
import { VELOCITY_LIMIT_M_PER_S, velocityMPerS } from '../../calc/pipe-friction.ts';
import { USUAL_AREA_M2 } from '../../calc/typical-loop.ts';
import { M_PER_IN } from '../../calc/units.ts';
import { EFFECTS, type Effect } from '../../knowledge/schema.ts';
import type { HydraulicModel } from './calibrate.ts';
import { weighedCases, type WeighedCase } from './cases.ts';
import { speedEstimates, type SpeedEstimate } from './energy.ts';
import type { Readings } from './likelihood.ts';
import { spreadOf, type Spread } from './quantiles.ts';

export interface EstimateOptions {
  /** Water in the pool, m³, above 0. */
  readonly volumeM3?: number;
  /** Inside diameters, m. */
  readonly suctionPipeM?: number;
  readonly returnPipeM?: number;
  /** Share of each effect before the readings; without it every effect that moves a gauge counts alike. */
  readonly shares?: Partial<Record<Effect, number>>;
  /** Speeds over the present one to estimate for a variable-speed pump. */
  readonly speedRatios?: readonly number[];
  readonly pricePerKWh?: number;
}

/** A value beside what the trade warns at. */
export interface AgainstLimit {
  readonly value: Spread;
  readonly limit: number;
  /** The pipe size or area was not known and a usual one stands in. */
  readonly assumed: boolean;
}

export interface Estimates {
  readonly flowM3PerS: Spread;
  readonly cleanerFlowM3PerS: Spread;
  readonly totalDynamicHeadM: Spread;
  readonly npshMarginM: Spread;
  readonly suctionVelocityMPerS: AgainstLimit;
  readonly returnVelocityMPerS: AgainstLimit;
  /** Filtration velocity; only where the type of filter is known. */
  readonly filterLoadingMPerS?: AgainstLimit;
  /** Time for the pool's volume to pass once; only where the volume is known. */
  readonly turnoverS?: Spread;
  readonly afterFilterClean: { readonly flowM3PerS: Spread; readonly filterPressurePa: Spread };
  /** Only for a variable-speed pump. */
  readonly speeds?: readonly SpeedEstimate[];
}

/** Inside diameters of nominal 1½ and 2 in pipe, schedule 40 (1.610 and 2.067 in, ASME B36.10, from memory). */
export const PIPE_INSIDE_M = { '1.5in': 1.61 * M_PER_IN, '2in': 2.067 * M_PER_IN } as const;
const USUAL_SPEED_RATIOS = [0.5, 0.6, 0.7, 0.8, 0.9, 1];

interface Standing {
  readonly weight: number;
  readonly point: FlowingPoint;
}

function standings(cases: readonly WeighedCase[], change: (one: WeighedCase) => PoolLoop): Standing[] {
  return cases.flatMap((one) => {
    const point = operatingPoint(change(one));
    return point.kind === 'flowing' ? [{ weight: one.weight, point }] : [];
  });
}

/** Without readings the pool is taken as it was when clean; with them any effect may be at work. */
function sharesOf(readings: Readings | undefined, options: EstimateOptions): [Effect, number][] {
  if (options.shares) return Object.entries(options.shares) as [Effect, number][];
  if (readings === undefined) return [['none', 1]];
  return EFFECTS.filter((effect) => !effect.startsWith('cleaner-pressure')).map((effect) => [effect, 1]);
}

type Reader = (of: (point: FlowingPoint) => number) => Spread | undefined;

function readerOf(all: readonly Standing[]): Reader {
  return (of) => spreadOf(all.map(({ point, weight }) => ({ value: of(point), weight })));
}

/** The filter as it was when clean, and whatever else is wrong left as it is. */
function withCleanFilter(one: WeighedCase): PoolLoop {
  return { ...one.loop, filter: one.member.loop.filter };
}

function loadingOf(model: HydraulicModel, spread: Reader): AgainstLimit | undefined {
  const type: FilterType | undefined = model.equipment.filter;
  if (type === undefined) return undefined;
  const area = model.known.filterAreaM2;
  const value = spread((point) => filterLoadingMPerS(point.flowM3PerS, area ?? USUAL_AREA_M2[type]));
  return value && { value, limit: LOADING_LIMIT_M_PER_S[type], assumed: area === undefined };
}

function velocityOf(spread: Reader, pipeM: number | undefined, limit: number): AgainstLimit | undefined {
  const diameterM = pipeM ?? PIPE_INSIDE_M['1.5in'];
  const value = spread((point) => velocityMPerS(point.flowM3PerS, diameterM));
  return value && { value, limit, assumed: pipeM === undefined };
}

function speedsOf(
  model: HydraulicModel,
  cases: readonly WeighedCase[],
  options: EstimateOptions,
): SpeedEstimate[] | undefined {
  if (model.equipment.pump !== 'variable-speed') return undefined;
  const ratios = options.speedRatios ?? USUAL_SPEED_RATIOS;
  return speedEstimates(cases, ratios, options.volumeM3, options.pricePerKWh);
}

/**
 * Estimates for a pool: as it was when clean, or as it stands now by readings taken together. Undefined where by all
 * that was read nothing flows. Never throws.
 */
export function estimates(
  model: HydraulicModel,
  readings?: Readings,
  options: EstimateOptions = {},
): Estimates | undefined {
  const cases = weighedCases(model, sharesOf(readings, options), readings);
  const asFound = (one: WeighedCase): PoolLoop => (readings === undefined ? withCleanFilter(one) : one.loop);
  const spread = readerOf(standings(cases, asFound));
  const cleaned = readerOf(standings(cases, withCleanFilter));
  const { volumeM3 } = options;
  const parts = {
    flowM3PerS: spread((point) => point.flowM3PerS),
    cleanerFlowM3PerS: spread((point) => point.cleanerFlowM3PerS),
    totalDynamicHeadM: spread((point) => point.totalDynamicHeadM),
    npshMarginM: spread((point) => point.npshMarginM),
    suctionVelocityMPerS: velocityOf(spread, options.suctionPipeM, VELOCITY_LIMIT_M_PER_S.suction),
    returnVelocityMPerS: velocityOf(spread, options.returnPipeM, VELOCITY_LIMIT_M_PER_S.return),
  };
  const flowM3PerS = cleaned((point) => point.flowM3PerS);
  const filterPressurePa = cleaned((point) => Math.max(0, point.filterPressurePa));
  if (!isComplete(parts) || !flowM3PerS || !filterPressurePa) return undefined;
  const filterLoading = loadingOf(model, spread);
  const turnoverS = volumeM3 === undefined ? undefined : spread((point) => volumeM3 / point.flowM3PerS);
  const speeds = speedsOf(model, cases, options);
  return {
    ...parts,
    ...(filterLoading && { filterLoadingMPerS: filterLoading }),
    ...(turnoverS && { turnoverS }),
    afterFilterClean: { flowM3PerS, filterPressurePa },
    ...(speeds && { speeds }),
  };
}

type Complete<T> = { [K in keyof T]: Exclude<T[K], undefined> };

function isComplete<T extends object>(parts: T): parts is T & Complete<T> {
  return Object.values(parts).every((part) => part !== undefined);
}
