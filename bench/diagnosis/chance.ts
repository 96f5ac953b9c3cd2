/** Draws from the usual distributions, each from a stream of even numbers, so that every run can be repeated. */

export type Random = () => number;

export function normal(random: Random): number {
  return Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
}

export function lognormal(random: Random, spread: number): number {
  return Math.exp(spread * normal(random));
}

/** Gamma of a shape above 0 and scale 1. Marsaglia & Tsang 2000. */
function gamma(random: Random, shape: number): number {
  if (shape < 1) return gamma(random, shape + 1) * Math.pow(1 - random(), 1 / shape);
  const d = shape - 1 / 3;
  for (;;) {
    const x = normal(random);
    const v = (1 + x / Math.sqrt(9 * d)) ** 3;
    if (v > 0 && Math.log(1 - random()) < 0.5 * x * x + d - d * v + d * Math.log(v)) return d * v;
  }
}

/** Proportions around a mean; the larger the concentration, the closer. */
export function dirichlet(random: Random, mean: readonly number[], concentration: number): number[] {
  const draws = mean.map((p) => (p > 0 ? gamma(random, concentration * p) : 0));
  const sum = draws.reduce((total, draw) => total + draw, 0);
  return draws.map((draw) => draw / sum);
}

/** An index drawn by weight. */
export function drawn(random: Random, weights: readonly number[]): number {
  let left = random() * weights.reduce((sum, weight) => sum + weight, 0);
  for (const [index, weight] of weights.entries()) {
    left -= weight;
    if (left < 0) return index;
  }
  return weights.length - 1;
}

export function pick<T>(random: Random, of: readonly T[]): T {
  return of[Math.floor(random() * of.length)]!;
}
