/** Learning from counts and the scoring of forecasts. */
import { describe, expect, it } from 'vitest';
import { dirichletMean, faded } from '../../src/calc/dirichlet.ts';
import { brierScore, logLoss, reliabilityTable } from '../../src/calc/scoring.ts';

describe('the Dirichlet update', () => {
  // Spiegelhalter & Lauritzen 1990: prior .5,.3,.2 with equivalent sample size 10 and counts 3,1,1.
  it('should move a prior by confirmed counts', () => {
    const mean = dirichletMean([0.5, 0.3, 0.2], 10, [3, 1, 1]);
    [0.53333, 0.26667, 0.2].forEach((value, index) => expect(mean[index]).toBeCloseTo(value, 5));
  });

  it('should stay at the prior without a count, and refuse a prior worth nothing', () => {
    expect(dirichletMean([0.6, 0.4], 5, [0, 0])).toEqual([0.6, 0.4]);
    expect(() => dirichletMean([1], 0, [0])).toThrow(RangeError);
  });

  it('should halve what a case counts with every half-life', () => {
    expect(faded(0, 24)).toBe(1);
    expect(faded(24, 24)).toBe(0.5);
    expect(faded(72, 24)).toBe(0.125);
    expect(faded(-3, 24)).toBe(1);
  });
});

describe('the scoring of forecasts', () => {
  // Recomputed by hand from the definition: (.01 + .01 + .04 + .09) / 4.
  it('should give the Brier score of y = 0,1,1,0 and p = .1,.9,.8,.3', () => {
    expect(brierScore([0, 1, 1, 0], [0.1, 0.9, 0.8, 0.3])).toBeCloseTo(0.0375, 12);
  });

  // Recomputed from the definition: the mean of −ln p.
  it('should give the log loss of .9,.9,.8,.65 on the right class', () => {
    expect(logLoss([0.9, 0.9, 0.8, 0.65])).toBeCloseTo(0.2161619, 7);
    expect(logLoss([0.5, 0])).toBe(Infinity);
  });

  it('should gather forecasts by size and count how often they came true', () => {
    const table = reliabilityTable([0, 1, 1, 1], [0.1, 0.15, 0.9, 1], 5);
    expect(table.map(({ from, count }) => [from, count])).toEqual([
      [0, 2],
      [0.8, 2],
    ]);
    expect(table[0]!.happened).toBe(0.5);
    expect(table[1]!.forecast).toBeCloseTo(0.95, 12);
  });
});
