/** Means and shares with their 95 % intervals. */

export interface Interval {
  value: number;
  /** Half of the 95 % interval. */
  half: number;
}

export function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

/** Mean with 1.96 standard errors. */
export function meanWithInterval(values: readonly number[]): Interval {
  const middle = mean(values);
  const variance = values.reduce((sum, value) => sum + (value - middle) ** 2, 0) / (values.length - 1);
  return { value: middle, half: 1.96 * Math.sqrt(variance / values.length) };
}

/**
 * Ratio of two means on the same cases, with 1.96 standard errors by linearisation: the cases are paired, so most of
 * what differs between cases cancels.
 */
export function ratioWithInterval(of: readonly number[], over: readonly number[]): Interval {
  const below = mean(over);
  const ratio = mean(of) / below;
  const rest = of.map((value, index) => (value - ratio * (over[index] ?? 0)) / below);
  return { value: ratio, half: meanWithInterval(rest).half };
}

export function shown({ value, half }: Interval, digits: number, scale = 1): string {
  return `${(scale * value).toFixed(digits)} ± ${(scale * half).toFixed(digits)}`;
}
