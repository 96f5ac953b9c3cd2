/** Evenly spread points of a unit cube, the same every time, and their normal scores. */

const PRIMES = [2, 3, 5, 7, 11, 13, 17, 19, 23, 29, 31, 37, 41, 43, 47, 53, 59, 61, 67, 71, 73, 79];

const MOST_DIMENSIONS = PRIMES.length;

/**
 * Coordinate of a Kronecker sequence, in (0, 1): the fraction of ½ + (index + 1) √prime.
 * Low discrepancy in each dimension and in pairs (Kuipers & Niederreiter, Uniform Distribution of Sequences, 1974).
 */
export function spreadPoint(index: number, dimension: number): number {
  const turns = 0.5 + (index + 1) * Math.sqrt(PRIMES[dimension % MOST_DIMENSIONS] ?? 2);
  return Math.min(1 - 1e-9, Math.max(1e-9, turns - Math.floor(turns)));
}

/** Rational approximation in the tails; p below 0.02425. */
function tailQuantile(p: number): number {
  const q = Math.sqrt(-2 * Math.log(p));
  const top =
    ((((-7.784894002430293e-3 * q - 0.3223964580411365) * q - 2.400758277161838) * q - 2.549732539343734) *
      q +
      4.374664141464968) *
      q +
    2.938163982698783;
  const bottom =
    (((7.784695709041462e-3 * q + 0.3224671290700398) * q + 2.445134137142996) * q + 3.754408661907416) * q +
    1;
  return top / bottom;
}

/**
 * The x below which a standard normal variable lies with probability p in (0, 1).
 * P. J. Acklam's rational approximation (coefficients from memory), relative error below 1.2e-9.
 */
export function normalQuantile(p: number): number {
  if (p < 0.02425) return tailQuantile(p);
  if (p > 1 - 0.02425) return -tailQuantile(1 - p);
  const q = p - 0.5;
  const r = q * q;
  const top =
    ((((-39.69683028665376 * r + 220.9460984245205) * r - 275.9285104469687) * r + 138.357751867269) * r -
      30.66479806614716) *
      r +
    2.506628277459239;
  const bottom =
    ((((-54.47609879822406 * r + 161.5858368580409) * r - 155.6989798598866) * r + 66.80131188771972) * r -
      13.28068155288572) *
      r +
    1;
  return (q * top) / bottom;
}
