import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { gasFraction, headFactor, leakAirM3PerS, leakAirSquaredPerM } from '../../src/calc/air-leak.ts';
import { vapourLimitPa, npshRequiredM } from '../../src/calc/npsh.ts';

describe('air drawn through a leak', () => {
  it('should be what the orifice formula gives, worked by hand: 1 mm² at 20 kPa', () => {
    // velocity √(2·20000/1.204) = 182.3 m/s, times 0.6·1e-6 m²
    expect(leakAirM3PerS(1e-6, 20_000)).toBeCloseTo(1.0936e-4, 7);
  });

  it('should be none without a vacuum', () => {
    expect(leakAirM3PerS(1e-6, -500)).toBe(0);
    expect(gasFraction(0, 0)).toBe(0);
  });

  it('should have the same square whether taken from pascal or from metres of water', () => {
    expect(leakAirSquaredPerM(2e-6, 9790) * 3).toBeCloseTo(leakAirM3PerS(2e-6, 3 * 9790) ** 2, 15);
    expect(leakAirSquaredPerM(2e-6, 9790) * 3).toBeGreaterThan(1e-8);
  });
});

describe('the head a pump keeps with gas in the water', () => {
  // Range from pump handbooks, from memory: some 2 % is tolerated, 5 to 8 % breaks suction.
  it('should be nearly whole at 2 % and nearly gone at 8 %', () => {
    expect(headFactor(0)).toBe(1);
    expect(headFactor(0.02)).toBeGreaterThan(0.99);
    expect(headFactor(0.05)).toBeLessThan(0.7);
    expect(headFactor(0.08)).toBeLessThan(0.1);
    expect(headFactor(1)).toBe(0);
  });

  it('should only fall as gas grows', () => {
    const fraction = fc.double({ min: 0, max: 1, noNaN: true });
    fc.assert(
      fc.property(fraction, fraction, (one, other) => {
        expect(headFactor(Math.max(one, other))).toBeLessThanOrEqual(headFactor(Math.min(one, other)));
      }),
    );
  });
});

describe('net positive suction head', () => {
  it('should leave less vacuum in hot water and on a mountain', () => {
    expect(vapourLimitPa(35, 101_325)).toBeLessThan(vapourLimitPa(15, 101_325));
    expect(vapourLimitPa(15, 84_000)).toBeLessThan(vapourLimitPa(15, 101_325));
  });

  it('should be required more at more flow and speed', () => {
    expect(npshRequiredM(0.004, 1)).toBeGreaterThan(npshRequiredM(0.003, 1));
    expect(npshRequiredM(0.004, 1)).toBeGreaterThan(npshRequiredM(0.004, 0.5));
  });
});
