/** How this pool's filter pressure moves: from clean to clean, and towards the next clean. */
import type { DatedPressure, NextClean } from '../calc/trend.ts';
import { cleanPressureTrend, nextClean } from '../calc/trend.ts';
import { DAY_MS } from '../calc/units.ts';
import type { PoolRecord, Reading } from './record.ts';
import type { Text } from './say.ts';
import { text } from './say.ts';

function dated({ at, value }: Reading): DatedPressure {
  return { day: at / DAY_MS, pressurePa: value };
}

function pressures(pool: PoolRecord): Reading[] {
  return pool.readings.filter(({ quantity }) => quantity === 'filter-pressure');
}

/** The clean pressure over the seasons: said where it creeps. */
function creep(cleans: readonly Reading[]): Text[] {
  const trend = cleanPressureTrend(cleans.map(dated));
  if (trend.kind === 'too-few' || !trend.creeps) return [];
  return [text('dialogue:trend.creeps', { rise: { quantity: 'filter-pressure', value: trend.risePa } })];
}

/** When the filter will want its next clean, by the readings since the last one; undefined before the first. */
export function nextFilterClean(pool: PoolRecord): NextClean | undefined {
  const all = pressures(pool);
  const last = all.findLast(({ clean }) => clean);
  if (last === undefined) return undefined;
  return nextClean(last.value, all.filter(({ at }) => at >= last.at).map(dated));
}

/** When the filter will want its next clean, in words. */
function forecast(next: NextClean): Text[] {
  switch (next.kind) {
    case 'too-few':
      return [text('dialogue:trend.too-few', { need: next.need, have: next.have })];
    case 'not-rising':
      return [];
    case 'due':
      return [text('dialogue:trend.due', { limit: { quantity: 'filter-pressure', value: next.limitPa } })];
    case 'forecast': {
      const limit = { quantity: 'filter-pressure', value: next.limitPa } as const;
      const day = { day: next.day * DAY_MS };
      if (!Number.isFinite(next.latestDay))
        return [text('dialogue:trend.from', { limit, day: { day: next.earliestDay * DAY_MS } })];
      const range = {
        earliest: { day: next.earliestDay * DAY_MS },
        latest: { day: next.latestDay * DAY_MS },
      };
      return [text('dialogue:trend.forecast', { limit, day, ...range })];
    }
  }
}

/** What the record of a pool tells of its filter. Nothing where no clean pressure is on record. */
export function filterTrend(pool: PoolRecord): Text[] {
  const next = nextFilterClean(pool);
  if (next === undefined) return [];
  return [...creep(pressures(pool).filter(({ clean }) => clean)), ...forecast(next)];
}
