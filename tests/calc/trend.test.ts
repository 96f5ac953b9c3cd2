import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cleaningLimit, cleanPressureTrend, nextClean, robustLine } from '../../src/calc/trend.ts';
import { PA_PER_PSI } from '../../src/calc/units.ts';

function readings(...pairs: (readonly [day: number, psi: number])[]) {
  return pairs.map(([day, psi]) => ({ day, pressurePa: psi * PA_PER_PSI }));
}

describe('the robust line', () => {
  it('should run through points on a line and not be tilted by one bad reading', () => {
    const line = robustLine(readings([0, 10], [10, 12], [20, 14], [30, 40], [40, 18]));
    if ('kind' in line) throw new Error(line.kind);
    expect(line.slopePaPerDay / PA_PER_PSI).toBeCloseTo(0.2, 9);
    expect(line.atDayZeroPa / PA_PER_PSI).toBeCloseTo(10, 9);
  });

  it('should give the slope of the example in Sen 1968 (data from memory)', () => {
    const x = [1, 2, 3, 4, 10, 12, 18];
    const y = [9, 15, 19, 20, 45, 55, 78];
    const line = robustLine(x.map((day, index) => ({ day, pressurePa: y[index]! })));
    if ('kind' in line) throw new Error(line.kind);
    // J. Am. Stat. Assoc. 63 (1968) 1379, section 6: slope estimate 4.
    expect(line.slopePaPerDay).toBeCloseTo(4, 1);
  });

  it('should say that it needs three different days', () => {
    expect(robustLine(readings([0, 10], [1, 11]))).toEqual({ kind: 'too-few', have: 2, need: 3 });
    expect(robustLine(readings([0, 10], [0, 11], [0, 12], [1, 12]))).toMatchObject({ have: 2 });
    expect(robustLine([...readings([0, 10], [1, 11]), { day: Number.NaN, pressurePa: 1 }])).toMatchObject({
      have: 2,
    });
  });
});

describe('the clean pressure over the seasons', () => {
  it('should warn when it creeps, and not when it only wavers', () => {
    const creeping = cleanPressureTrend(readings([0, 12], [60, 13], [120, 13.8], [180, 15], [240, 16]));
    expect(creeping).toMatchObject({ kind: 'trend', creeps: true });
    if (creeping.kind === 'trend') expect(creeping.risePa / PA_PER_PSI).toBeCloseTo(4, 0);
    const wavering = cleanPressureTrend(readings([0, 12], [60, 12.5], [120, 11.8], [180, 12.3], [240, 12.1]));
    expect(wavering).toMatchObject({ kind: 'trend', creeps: false });
    expect(cleanPressureTrend(readings([0, 12]))).toMatchObject({ kind: 'too-few' });
  });
});

describe('the next clean', () => {
  it('should come at a quarter or 8 psi over clean, whichever is first (common practice, no source)', () => {
    expect(cleaningLimit(20 * PA_PER_PSI).limitPa / PA_PER_PSI).toBeCloseTo(25, 9);
    expect(cleaningLimit(20 * PA_PER_PSI).rule).toBe('quarter');
    expect(cleaningLimit(40 * PA_PER_PSI).limitPa / PA_PER_PSI).toBeCloseTo(48, 9);
    expect(cleaningLimit(40 * PA_PER_PSI).rule).toBe('eight-psi');
  });

  it('should foretell the day, between an earliest and a latest', () => {
    const found = nextClean(20 * PA_PER_PSI, readings([0, 20], [10, 21.2], [20, 21.8], [30, 23]));
    if (found.kind !== 'forecast') throw new Error(found.kind);
    expect(found.day).toBeGreaterThan(45);
    expect(found.day).toBeLessThan(55);
    expect(found.earliestDay).toBeLessThan(found.day);
    expect(found.latestDay).toBeGreaterThan(found.day);
    const straight = nextClean(20 * PA_PER_PSI, readings([0, 20], [10, 21], [20, 22]));
    expect(straight).toMatchObject({ kind: 'forecast' });
    if (straight.kind === 'forecast') expect(straight.day).toBeCloseTo(50, 6);
  });

  it('should say when it is due, when nothing rises and when there is too little to say', () => {
    const clean = 12 * PA_PER_PSI;
    expect(nextClean(clean, readings([0, 12], [10, 14], [20, 16]))).toMatchObject({ kind: 'due' });
    expect(nextClean(clean, readings([0, 12], [10, 12], [20, 12]))).toMatchObject({ kind: 'not-rising' });
    expect(nextClean(clean, readings([0, 12], [20, 16]))).toMatchObject({ kind: 'too-few', have: 2 });
  });

  it('should never throw, and order its days', () => {
    const point = fc.record({ day: fc.double(), pressurePa: fc.double() });
    const sane = fc.record({
      day: fc.double({ min: 0, max: 1000, noNaN: true }),
      pressurePa: fc.double({ min: 0, max: 4e5, noNaN: true }),
    });
    const points = fc.array(fc.oneof({ weight: 9, arbitrary: sane }, { weight: 1, arbitrary: point }));
    fc.assert(
      fc.property(points, fc.double({ min: 1, max: 4e5, noNaN: true }), (since, cleanPa) => {
        cleanPressureTrend(since);
        const found = nextClean(cleanPa, since);
        if (found.kind !== 'forecast') return;
        expect(found.earliestDay).toBeLessThanOrEqual(found.day);
        expect(found.latestDay).toBeGreaterThanOrEqual(found.day);
      }),
      { seed: 2, numRuns: 2000 },
    );
  });
});
