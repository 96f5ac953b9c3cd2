import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { operatingPoint } from '../../src/calc/circulation.ts';
import type { PoolLoop } from '../../src/calc/circulation.ts';
import { vapourLimitPa } from '../../src/calc/npsh.ts';
import { RUNS, leakArea, wildLoop } from './random-loop.ts';
import { flowing, oneHp } from './sample-pools.ts';

function flowOf(loop: PoolLoop): number {
  const point = operatingPoint(loop);
  return point.kind === 'flowing' ? point.flowM3PerS : 0;
}

function vacuumLimit(loop: PoolLoop): number {
  return vapourLimitPa(loop.waterC, loop.atmospherePa);
}

describe('how the operating point moves', () => {
  it('should lose flow and vacuum as an air leak grows', () => {
    fc.assert(
      fc.property(wildLoop, leakArea, leakArea, (loop, one, other) => {
        const small = operatingPoint({ ...loop, leakAreaM2: Math.min(one, other) });
        const large = operatingPoint({ ...loop, leakAreaM2: Math.max(one, other) });
        if (large.kind === 'none') return;
        if (small.kind === 'none') throw new Error('a smaller leak lost the prime that a larger one kept');
        expect(large.flowM3PerS).toBeLessThanOrEqual(small.flowM3PerS * (1 + 1e-9));
        expect(large.pumpVacuumPa).toBeLessThanOrEqual(small.pumpVacuumPa + 1e-3);
        expect(large.airFraction).toBeGreaterThanOrEqual(small.airFraction * (1 - 1e-6));
      }),
      RUNS,
    );
  });

  it('should raise filter pressure and lower flow, vacuum and cleaner suction as the filter clogs', () => {
    fc.assert(
      fc.property(wildLoop, fc.double({ min: 1, max: 100, noNaN: true }), (wild, dirt) => {
        const clean = { ...wild, leakAreaM2: 0 };
        const dirty = { ...clean, filter: { ...clean.filter, linear: clean.filter.linear * dirt } };
        if (operatingPoint(clean).kind === 'none') return;
        const before = flowing(clean);
        const after = flowing(dirty);
        expect(after.flowM3PerS).toBeLessThanOrEqual(before.flowM3PerS * (1 + 1e-12));
        expect(after.filterPressurePa).toBeGreaterThanOrEqual(before.filterPressurePa - 1e-3);
        expect(after.pumpVacuumPa).toBeLessThanOrEqual(before.pumpVacuumPa + 1e-3);
        expect(after.cleanerSuctionPa).toBeLessThanOrEqual(before.cleanerSuctionPa + 1e-3);
      }),
      RUNS,
    );
  });

  it('should raise vacuum and lower filter pressure as the common suction clogs', () => {
    fc.assert(
      fc.property(wildLoop, fc.double({ min: 1, max: 100, noNaN: true }), (wild, more) => {
        const clear = { ...wild, leakAreaM2: 0 };
        if (operatingPoint(clear).kind === 'none') return;
        const before = flowing(clear);
        const after = flowing({ ...clear, commonLoss: clear.commonLoss * more });
        expect(after.pumpVacuumPa).toBeGreaterThanOrEqual(before.pumpVacuumPa - 1e-3);
        expect(after.filterPressurePa).toBeLessThanOrEqual(before.filterPressurePa + 1e-3);
        expect(after.cleanerSuctionPa).toBeLessThanOrEqual(before.cleanerSuctionPa + 1e-3);
      }),
      RUNS,
    );
  });

  it('should never draw a vacuum beyond the vapour limit, and reach it when the suction is strangled', () => {
    let limited = 0;
    fc.assert(
      fc.property(wildLoop, (loop) => {
        const point = operatingPoint(loop);
        if (point.kind === 'none') return;
        if (point.vapourLimited) limited += 1;
        expect(point.pumpVacuumPa).toBeLessThanOrEqual(vacuumLimit(loop) * (1 + 1e-9));
        expect(point.vapourLimited && point.npshMarginM > 0).toBe(false);
      }),
      RUNS,
    );
    expect(limited).toBeGreaterThan(20);
  });

  it('should reach the airless answer as the leak shrinks to nothing', () => {
    fc.assert(
      fc.property(wildLoop, (loop) => {
        const airless = flowOf({ ...loop, leakAreaM2: 0 });
        expect(Math.abs(flowOf({ ...loop, leakAreaM2: 1e-14 }) - airless)).toBeLessThanOrEqual(
          1e-9 * airless,
        );
      }),
      RUNS,
    );
  });

  it('should follow the affinity laws through square losses: half speed, half flow, a quarter of the head', () => {
    const square = { ...oneHp, filter: { ...oneHp.filter, linear: 0 } };
    const full = flowing(square);
    const half = flowing({ ...square, pump: { ...square.pump, speedRatio: 0.5 } });
    expect(half.flowM3PerS / full.flowM3PerS).toBeCloseTo(0.5, 12);
    expect(half.totalDynamicHeadM / full.totalDynamicHeadM).toBeCloseTo(0.25, 12);
  });
});
