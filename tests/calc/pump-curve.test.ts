import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fitPumpCurve, genericPumpCurve, pumpHeadM } from '../../src/calc/pump-curve.ts';
import { GRAVITY, W_PER_HP } from '../../src/calc/units.ts';

describe('a curve from printed points', () => {
  it('should come back from its own points, however many', () => {
    const head = fc.double({ min: 5, max: 40, noNaN: true });
    const coefficient = fc.double({ min: 1e5, max: 3e6, noNaN: true });
    fc.assert(
      fc.property(
        head,
        coefficient,
        fc.integer({ min: 2, max: 9 }),
        (shutOffHeadM, curveCoefficient, count) => {
          const curve = { shutOffHeadM, curveCoefficient };
          const points = Array.from({ length: count }, (_, index) => ({
            flowM3PerS: index * 5e-4,
            headM: pumpHeadM(curve, index * 5e-4),
          }));
          const fitted = fitPumpCurve(points);
          if (fitted.kind !== 'curve') throw new Error(fitted.reason);
          expect(fitted.curve.shutOffHeadM / shutOffHeadM).toBeCloseTo(1, 9);
          expect(fitted.curve.curveCoefficient / curveCoefficient).toBeCloseTo(1, 6);
          expect(fitted.worstResidualM).toBeLessThan(1e-9);
        },
      ),
    );
  });

  it('should be the least-squares one: no small change makes the squares smaller', () => {
    const points = [
      { flowM3PerS: 0, headM: 20.3 },
      { flowM3PerS: 0.002, headM: 17.5 },
      { flowM3PerS: 0.004, headM: 12.4 },
      { flowM3PerS: 0.006, headM: 1.5 },
    ];
    const fitted = fitPumpCurve(points);
    if (fitted.kind !== 'curve') throw new Error(fitted.reason);
    const squares = (head: number, coefficient: number): number =>
      points.reduce(
        (sum, point) =>
          sum +
          (pumpHeadM({ shutOffHeadM: head, curveCoefficient: coefficient }, point.flowM3PerS) -
            point.headM) **
            2,
        0,
      );
    const { shutOffHeadM, curveCoefficient } = fitted.curve;
    const best = squares(shutOffHeadM, curveCoefficient);
    for (const factor of [0.999, 1.001]) {
      expect(squares(shutOffHeadM * factor, curveCoefficient)).toBeGreaterThan(best);
      expect(squares(shutOffHeadM, curveCoefficient * factor)).toBeGreaterThan(best);
    }
  });

  it('should be refused from one flow alone, and where the head rises', () => {
    const one = { flowM3PerS: 0.002, headM: 15 };
    expect(fitPumpCurve([])).toEqual({ kind: 'unusable', reason: 'too-few-points' });
    expect(fitPumpCurve([one, { ...one, headM: 14 }])).toEqual({
      kind: 'unusable',
      reason: 'too-few-points',
    });
    expect(fitPumpCurve([one, { flowM3PerS: 0.004, headM: 16 }])).toEqual({
      kind: 'unusable',
      reason: 'head-does-not-fall',
    });
  });
});

describe('the generic pumps', () => {
  it('should be stronger the more power they have, and never give more water power than they take', () => {
    const powers = [0.5, 0.75, 1, 1.5, 2, 3].map((hp) => hp * W_PER_HP);
    let weaker = 0;
    for (const power of powers) {
      const curve = genericPumpCurve(power);
      const flow = Math.sqrt(curve.shutOffHeadM / curve.curveCoefficient / 3);
      const hydraulicW = flow * pumpHeadM(curve, flow) * 998 * GRAVITY;
      expect(hydraulicW).toBeGreaterThan(weaker);
      expect(hydraulicW / power).toBeLessThan(0.85);
      expect(hydraulicW / power).toBeGreaterThan(0.4);
      weaker = hydraulicW;
    }
  });
});
