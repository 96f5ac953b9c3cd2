/** What a technician wants to know of the water: flow, head, velocities, loading, what a clean filter would bring. */
import { fromM3PerS, HOUR_MS, M_PER_FT, PA_PER_PSI } from '../calc/units.ts';
import { M_PER_S_PER_GPM_PER_FT2 } from '../calc/filter-loss.ts';
import { suspectsOf } from '../engine/belief.ts';
import type { Case, Gauges } from '../engine/case.ts';
import type { AgainstLimit, Estimates } from '../engine/hydraulics/estimates.ts';
import { estimates } from '../engine/hydraulics/estimates.ts';
import type { Spread } from '../engine/hydraulics/quantiles.ts';
import { circulationReadings, hydraulicModel } from '../engine/readings.ts';
import { SOMETHING_ELSE } from '../knowledge/ids.ts';
import type { Effect } from '../knowledge/schema.ts';
import { faultById } from '../knowledge/trade.ts';
import { knownOf } from './case-view.ts';
import type { PoolRecord } from './record.ts';
import type { Measure, Say, Text } from './say.ts';
import { info, text } from './say.ts';

/** Readings older than this tell of another day. */
const LATELY_MS = 12 * HOUR_MS;

const gpm = (flow: number): Measure => ({ measure: fromM3PerS(flow, 'gpm'), unit: 'gpm', digits: 0 });
const feet = (length: number): Measure => ({ measure: length / M_PER_FT, unit: 'ft', digits: 0 });
const feetPerS = (velocity: number): Measure => ({ measure: velocity / M_PER_FT, unit: 'ft/s', digits: 1 });
const psi = (pressure: number): Measure => ({ measure: pressure / PA_PER_PSI, unit: 'psi', digits: 0 });
const hours = (time: number): Measure => ({ measure: time / 3600, unit: 'h', digits: 1 });
const loading = (velocity: number): Measure => ({
  measure: velocity / M_PER_S_PER_GPM_PER_FT2,
  unit: 'gpm/ft2',
  digits: 2,
});

function range(key: string, spread: Spread, measure: (value: number) => Measure): Text {
  return text(`dialogue:estimates.${key}`, {
    middle: measure(spread.p50),
    low: measure(spread.p10),
    high: measure(spread.p90),
  });
}

function againstLimit(
  key: string,
  { value, limit, assumed }: AgainstLimit,
  measure: (value: number) => Measure,
): Text[] {
  const facts = { value: measure(value.p50), limit: measure(limit) };
  const line = text(`dialogue:estimates.${key}`, facts);
  const over = value.p50 > limit ? [text('dialogue:estimates.over-limit')] : [];
  const note = assumed ? [text(`dialogue:estimates.${key}-assumed`)] : [];
  return [text('dialogue:estimates.joined', { parts: [line, ...over, ...note] })];
}

function speedLines({ speeds }: Estimates): Text[] {
  return (speeds ?? [])
    .filter(({ ratio }) => ratio === 0.5 || ratio === 0.7)
    .map(({ ratio, flowM3PerS, powerW }) =>
      text('dialogue:estimates.speed', {
        percent: Math.round(100 * ratio),
        flow: gpm(flowM3PerS.p50),
        power: { measure: powerW.p50, unit: 'W', digits: 0 },
      }),
    );
}

function lines(found: Estimates): Text[] {
  const { filterLoadingMPerS, afterFilterClean } = found;
  return [
    range('flow', found.flowM3PerS, gpm),
    range('head', found.totalDynamicHeadM, feet),
    range('npsh', found.npshMarginM, feet),
    ...againstLimit('suction-velocity', found.suctionVelocityMPerS, feetPerS),
    ...againstLimit('return-velocity', found.returnVelocityMPerS, feetPerS),
    ...(found.turnoverS === undefined ? [] : [range('turnover', found.turnoverS, hours)]),
    ...(filterLoadingMPerS === undefined ? [] : againstLimit('loading', filterLoadingMPerS, loading)),
    text('dialogue:estimates.after-clean', {
      flow: gpm(afterFilterClean.flowM3PerS.p50),
      pressure: psi(afterFilterClean.filterPressurePa.p50),
    }),
    ...speedLines(found),
  ];
}

/** The share of each effect in what is suspected of a case. */
function sharesOf(oneCase: Case): Partial<Record<Effect, number>> {
  const shares: Partial<Record<Effect, number>> = {};
  for (const { fault, p } of suspectsOf(oneCase)) {
    const effect = fault === SOMETHING_ELSE ? 'none' : faultById(fault).effect;
    shares[effect] = (shares[effect] ?? 0) + p;
  }
  return shares;
}

function latelyRead(pool: PoolRecord, now: number): Gauges {
  const recent = pool.readings.filter(({ at, clean }) => !clean && now - at < LATELY_MS);
  return Object.fromEntries(recent.map(({ quantity, value }) => [quantity, value]));
}

/** The estimates for a pool by its readings of the last hours; as it was when clean where there are none. */
export function estimatesOf(pool: PoolRecord, now: number, oneCase?: Case): Say {
  const known = knownOf(pool);
  const gauges = circulationReadings(latelyRead(pool, now));
  const readings = Object.keys(gauges).length === 0 ? undefined : gauges;
  const volumeM3 = pool.figures.volume;
  const options = {
    ...(oneCase === undefined || readings === undefined ? {} : { shares: sharesOf(oneCase) }),
    ...(volumeM3 === undefined ? {} : { volumeM3 }),
  };
  const found = estimates(hydraulicModel(known), readings, options);
  if (found === undefined) return info('estimates', text('dialogue:estimates.nothing-flows'));
  const head = text(readings === undefined ? 'dialogue:estimates.head-clean' : 'dialogue:estimates.head-now');
  return info('estimates', head, ...lines(found), text('dialogue:estimates.caveat'));
}
