/** How good forecasts in probabilities were. */

/** Mean squared difference between forecasts and what happened (0 or 1): 0 is perfect, 1 the worst. Brier 1950. */
export function brierScore(happened: readonly number[], forecasts: readonly number[]): number {
  const sum = happened.reduce((total, y, index) => total + (y - (forecasts[index] ?? 0)) ** 2, 0);
  return sum / happened.length;
}

/** Mean of −ln p over the probabilities given to what turned out true. Infinite where one of them was 0. */
export function logLoss(givenToTheTruth: readonly number[]): number {
  return givenToTheTruth.reduce((sum, p) => sum - Math.log(p), 0) / givenToTheTruth.length;
}

/** Forecasts of about the same size, and how often they came true. */
export interface ReliabilityRow {
  /** Forecasts from here up to the next row. */
  from: number;
  count: number;
  /** Mean forecast, 0 to 1. */
  forecast: number;
  /** Share that came true, 0 to 1. */
  happened: number;
}

/** Forecasts gathered into equal classes from 0 to 1, lowest first; empty classes are left out. */
export function reliabilityTable(
  happened: readonly number[],
  forecasts: readonly number[],
  classes: number,
): ReliabilityRow[] {
  const classOf = (p: number): number => Math.min(classes - 1, Math.floor(p * classes));
  return Array.from({ length: classes }, (_, wanted) => {
    const own = forecasts.flatMap((p, index) => (classOf(p) === wanted ? [index] : []));
    const mean = (values: readonly number[]): number =>
      own.reduce((sum, index) => sum + (values[index] ?? 0), 0) / own.length;
    return { from: wanted / classes, count: own.length, forecast: mean(forecasts), happened: mean(happened) };
  }).filter(({ count }) => count > 0);
}
