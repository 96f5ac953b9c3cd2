/** Readings sent just before a case: whoever reads the gauges first and complains then is not asked for them again. */
import { MINUTE_MS } from '../calc/units.ts';
import type { PoolRecord, Reading } from './record.ts';

/** A needle read longer ago than this may stand elsewhere by now. Common practice, no source. */
const JUST_NOW_MS = 15 * MINUTE_MS;

/** The latest of each gauge's readings that were sent just now and belong to no case; none of a clean pool. */
export function justRead(
  { readings, cases }: Pick<PoolRecord, 'readings' | 'cases'>,
  now: number,
): Reading[] {
  const taken = cases.map(({ openedAt, closedAt }) => closedAt ?? (openedAt < now ? now : 0));
  const since = Math.max(now - JUST_NOW_MS, ...taken);
  const fresh = readings.filter(({ clean, at }) => !clean && at > since && at <= now);
  return [...new Map(fresh.map((reading) => [reading.quantity, reading])).values()];
}
