/** Belief over causes that exclude each other: plain probability, no names. */

/** Scales weights (each ≥ 0, at least one > 0) so that they sum to one. Throws a RangeError where all are zero. */
export function normalised(weights: readonly number[]): number[] {
  const sum = weights.reduce((total, weight) => total + weight, 0);
  if (!(sum > 0)) throw new RangeError('A belief needs at least one positive weight');
  return weights.map((weight) => weight / sum);
}

/**
 * A probability mixed with an even guess, so that one wrong answer never rules a cause out:
 * (1 − ε) p + ε / k for an answer that has k outcomes.
 */
export function withFloor(probability: number, outcomes: number, epsilon: number): number {
  return (1 - epsilon) * probability + epsilon / outcomes;
}

/** Bayes' rule: the belief after an answer whose probability under each cause is `likelihood`. */
export function updated(belief: readonly number[], likelihood: readonly number[]): number[] {
  return normalised(belief.map((p, cause) => p * (likelihood[cause] ?? 0)));
}

/**
 * The belief after a repair of one cause that did not help: a repair that cures with probability `cures`
 * leaves that cause 1 − cures of its weight, and everything else as it was.
 */
export function afterFailedRepair(belief: readonly number[], cause: number, cures: number): number[] {
  return normalised(belief.map((p, other) => (other === cause ? p * (1 - cures) : p)));
}

/** Probability that a standard normal variable is at most x. Abramowitz & Stegun 26.2.17, error below 7.5e-8. */
export function normalCdf(x: number): number {
  const t = 1 / (1 + 0.2316419 * Math.abs(x));
  const poly =
    t * (0.31938153 + t * (-0.356563782 + t * (1.781477937 + t * (-1.821255978 + t * 1.330274429))));
  const tail = (Math.exp((-x * x) / 2) / Math.sqrt(2 * Math.PI)) * poly;
  return x >= 0 ? 1 - tail : tail;
}

/** Entropy of a belief that sums to one, −Σ p log₂ p in bits: 0 where the cause is certain. */
export function entropyBits(belief: readonly number[]): number {
  return -belief.reduce((sum, p) => (p > 0 ? sum + p * Math.log2(p) : sum), 0);
}
