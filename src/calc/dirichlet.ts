/** Learning proportions from counts: a Dirichlet prior written as a mean and the number of cases it is worth. */

/**
 * Mean of a Dirichlet after counts: (n₀ pᵢ + nᵢ) / (n₀ + Σ n). Spiegelhalter & Lauritzen 1990.
 * @param prior mean before the counts; sums to one.
 * @param sampleSize how many cases the prior is worth, above 0.
 * @param counts confirmed cases of each class, each ≥ 0; fading may make them fractions.
 */
export function dirichletMean(
  prior: readonly number[],
  sampleSize: number,
  counts: readonly number[],
): number[] {
  if (!(sampleSize > 0)) throw new RangeError('A prior is worth more than no case');
  const seen = counts.reduce((sum, count) => sum + count, 0);
  return prior.map((p, index) => (sampleSize * p + (counts[index] ?? 0)) / (sampleSize + seen));
}

/** What a case still counts after an age: ½ to the power of age over half-life, both in the same unit and ≥ 0. */
export function faded(age: number, halfLife: number): number {
  return Math.pow(0.5, Math.max(0, age) / halfLife);
}
