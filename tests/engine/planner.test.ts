/** The planner near the exact optimum, and inside the rules of safety, on a sample of what the bench measures. */
import { describe, expect, it } from 'vitest';
import { watched } from '../../bench/diagnosis/safety.ts';
import { nextStep } from '../../src/calc/next-step.ts';
import { costOfPolicy, optimum, safeOrder } from '../exact/optimum.ts';
import { randomReduced } from '../exact/random-reduced.ts';
import { mulberry32 } from '../truth/random.ts';

describe('the planner', () => {
  // Invented models; the optimum by dynamic programming over every state.
  it('should be within 1 % of the exact optimum on average and 8 % at worst', () => {
    const random = mulberry32(20_260_407);
    const excesses = Array.from({ length: 12 }, () => {
      const model = randomReduced(random);
      const own = costOfPolicy(model, ({ outlook }) => nextStep(outlook).choice);
      return own / optimum(model, safeOrder).cost - 1;
    });
    expect(Math.min(...excesses)).toBeGreaterThan(-1e-9);
    expect(excesses.reduce((sum, excess) => sum + excess, 0) / excesses.length).toBeLessThan(0.01);
    expect(Math.max(...excesses)).toBeLessThan(0.08);
  });

  it('should show no step out of the safe order, beyond the role or without its cautions', () => {
    const { steps, breaches } = watched(600);
    expect(steps).toBeGreaterThanOrEqual(600);
    expect([...breaches]).toEqual([]);
  });
});
