/** Readings sent just before a case: whoever reads the gauges first and complains then is not asked for them again. */
import { MINUTE_MS } from '../calc/units.ts';
import type { PoolRecord, Reading } from './record.ts';

/** A needle read longer ago than this may stand elsewhere by now. Common practice, no source. */
const JUST_NOW_MS = 15 * MINUTE_MS;

/** The latest of each gauge's readings that were sent just now, since the last case, and not of a clean pool. */
export function justRead(
  { readings, cases }: Pick<PoolRecord, 'readings' | 'cases'>,
  now: number,
): Reading[] {
  // What was read while a case was open belongs to that case.
  const since = Math.max(now - JUST_NOW_MS, ...cases.map(({ closedAt = now }) => closedAt));
  const fresh = readings.filter(({ clean, at }) => !clean && at > since && at <= now);
  return [...new Map(fresh.map((reading) => [reading.quantity, reading])).values()];
}
