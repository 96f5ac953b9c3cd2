/** How a filter's pressure moves over time: clean to clean over seasons, and from one clean to the next. Pa, days. */
import { PA_PER_PSI } from './units.ts';

export interface DatedPressure {
  /** Days from any fixed date. */
  readonly day: number;
  readonly pressurePa: number;
}

/** A line through readings that no single one can tilt: the median of the slopes between all pairs (Theil-Sen). */
export interface RobustLine {
  readonly slopePaPerDay: number;
  /** 10 and 90 % points of the slopes between pairs. */
  readonly slopeRangePaPerDay: readonly [number, number];
  /** Median of pressure less slope times day. */
  readonly atDayZeroPa: number;
}

export interface TooFew {
  readonly kind: 'too-few';
  /** Usable readings on different days. */
  readonly have: number;
  readonly need: number;
}

/** Readings on different days that a trend needs. */
const FEWEST_POINTS = 3;

function quantile(sorted: readonly number[], share: number): number {
  const at = share * (sorted.length - 1);
  const low = sorted[Math.floor(at)] ?? 0;
  const high = sorted[Math.ceil(at)] ?? low;
  return low + (high - low) * (at - Math.floor(at));
}

function ascending(values: readonly number[]): number[] {
  return [...values].sort((a, b) => a - b);
}

/** No filter stands at more, and no pool is older: what is beyond is a slip. */
const MOST_PA = 1e7;
const MOST_DAYS = 1e6;
/** Readings nearer in time than this are of the same day: the gauge's error would pass for a slope. */
const SAME_DAY = 0.2;

/** Readings that can be, day by day in order. */
function usable(points: readonly DatedPressure[]): DatedPressure[] {
  return points
    .filter(({ day, pressurePa }) => Math.abs(day) <= MOST_DAYS && Math.abs(pressurePa) <= MOST_PA)
    .sort((a, b) => a.day - b.day);
}

function differentDays(sorted: readonly DatedPressure[]): number {
  let count = 0;
  let last = -Infinity;
  for (const { day } of sorted)
    if (day - last > SAME_DAY) {
      count += 1;
      last = day;
    }
  return count;
}

/**
 * The robust line through readings, in any order; readings that cannot be (not finite, absurd) are left out.
 * Needs three different days. Sources: H. Theil 1950; P. K. Sen, J. Am. Stat. Assoc. 63 (1968) 1379.
 */
export function robustLine(points: readonly DatedPressure[]): RobustLine | TooFew {
  const good = usable(points);
  const have = differentDays(good);
  if (have < FEWEST_POINTS) return { kind: 'too-few', have, need: FEWEST_POINTS };
  const slopes = ascending(
    good.flatMap((a, index) =>
      good
        .slice(index + 1)
        .filter((b) => b.day - a.day > SAME_DAY)
        .map((b) => (b.pressurePa - a.pressurePa) / (b.day - a.day)),
    ),
  );
  const slopePaPerDay = quantile(slopes, 0.5);
  const rests = ascending(good.map(({ day, pressurePa }) => pressurePa - slopePaPerDay * day));
  return {
    slopePaPerDay,
    slopeRangePaPerDay: [quantile(slopes, 0.1), quantile(slopes, 0.9)],
    atDayZeroPa: quantile(rests, 0.5),
  };
}

export type CleanTrend =
  | TooFew
  | {
      readonly kind: 'trend';
      readonly line: RobustLine;
      /** Rise of the line from the first to the last clean reading. */
      readonly risePa: number;
      /** The clean pressure itself creeps up: a clean no longer brings the filter back. */
      readonly creeps: boolean;
    };

/** Invented: a clean reading up by a tenth and by 1 psi is more than a gauge's whim. */
const CREEP_SHARE = 0.1;
const LEAST_CREEP_PA = PA_PER_PSI;

/** Trend of the pressures read just after each clean, over months and seasons. */
export function cleanPressureTrend(cleans: readonly DatedPressure[]): CleanTrend {
  const line = robustLine(cleans);
  if ('kind' in line) return line;
  const days = usable(cleans).map(({ day }) => day);
  const first = Math.min(...days);
  const risePa = line.slopePaPerDay * (Math.max(...days) - first);
  const startPa = line.atDayZeroPa + line.slopePaPerDay * first;
  const enough = Math.max(LEAST_CREEP_PA, CREEP_SHARE * startPa);
  return { kind: 'trend', line, risePa, creeps: risePa >= enough && line.slopeRangePaPerDay[0] > 0 };
}

export type CleanRule = 'quarter' | 'eight-psi';

export type NextClean =
  | TooFew
  /** No rise since the last clean, so no date can be given. */
  | { readonly kind: 'not-rising'; readonly limitPa: number }
  | { readonly kind: 'due'; readonly limitPa: number; readonly rule: CleanRule }
  | {
      readonly kind: 'forecast';
      readonly limitPa: number;
      readonly rule: CleanRule;
      readonly day: number;
      readonly earliestDay: number;
      /** Infinity where the slowest rise that fits is no rise. */
      readonly latestDay: number;
    };

/** Clean the filter a quarter or 8 psi over its clean reading, whichever comes first (common practice, no source). */
export function cleaningLimit(cleanPa: number): { limitPa: number; rule: CleanRule } {
  const quarter = 1.25 * cleanPa;
  const eight = cleanPa + 8 * PA_PER_PSI;
  return quarter <= eight ? { limitPa: quarter, rule: 'quarter' } : { limitPa: eight, rule: 'eight-psi' };
}

/**
 * When a filter that read `cleanPa` (above 0) just after its clean will want the next one, by the readings since then
 * (the clean one may be among them). Due where the line has reached the limit by the last reading. Never throws.
 */
export function nextClean(cleanPa: number, since: readonly DatedPressure[]): NextClean {
  const line = robustLine(since);
  if ('kind' in line) return line;
  const { limitPa, rule } = cleaningLimit(cleanPa);
  const lastDay = Math.max(...usable(since).map(({ day }) => day));
  const nowPa = line.atDayZeroPa + line.slopePaPerDay * lastDay;
  if (nowPa >= limitPa) return { kind: 'due', limitPa, rule };
  if (!(line.slopePaPerDay > 0)) return { kind: 'not-rising', limitPa };
  const dayAt = (slope: number): number => (slope > 0 ? lastDay + (limitPa - nowPa) / slope : Infinity);
  const [slowest, fastest] = line.slopeRangePaPerDay;
  return {
    kind: 'forecast',
    limitPa,
    rule,
    day: dayAt(line.slopePaPerDay),
    earliestDay: dayAt(fastest),
    latestDay: dayAt(slowest),
  };
}
