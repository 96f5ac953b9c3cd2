/** Weighted spread of numbers: points and moments. */

/** The 10, 50 and 90 % points. */
export interface Spread {
  readonly p10: number;
  readonly p50: number;
  readonly p90: number;
}

export interface Moments {
  readonly mean: number;
  /** Standard deviation. */
  readonly sd: number;
}

export interface Weighted {
  readonly value: number;
  readonly weight: number;
}

/** Value at a share (0 to 1) of the weight, between neighbours by the middles of their weights. Sorted by value. */
function pointAt(sorted: readonly Weighted[], total: number, share: number): number {
  const wanted = share * total;
  let passed = 0;
  let before: { middle: number; value: number } | undefined;
  for (const { value, weight } of sorted) {
    const middle = passed + weight / 2;
    if (middle >= wanted) {
      if (before === undefined || value === before.value) return value;
      const part = (wanted - before.middle) / (middle - before.middle);
      return before.value + part * (value - before.value);
    }
    before = { middle, value };
    passed += weight;
  }
  return before?.value ?? 0;
}

/** The 10, 50 and 90 % points of weighted values; undefined where there is no weight at all. */
export function spreadOf(values: readonly Weighted[]): Spread | undefined {
  const sorted = values.filter(({ weight }) => weight > 0).sort((a, b) => a.value - b.value);
  const total = sorted.reduce((sum, { weight }) => sum + weight, 0);
  if (!(total > 0)) return undefined;
  const at = (share: number): number => pointAt(sorted, total, share);
  return { p10: at(0.1), p50: at(0.5), p90: at(0.9) };
}

/** Mean and standard deviation of weighted values; zero where there is no weight. */
export function momentsOf(values: readonly Weighted[]): Moments {
  const total = values.reduce((sum, { weight }) => sum + weight, 0);
  if (!(total > 0)) return { mean: 0, sd: 0 };
  const mean = values.reduce((sum, { value, weight }) => sum + value * weight, 0) / total;
  const variance = values.reduce((sum, { value, weight }) => sum + weight * (value - mean) ** 2, 0) / total;
  return { mean, sd: Math.sqrt(variance) };
}
