import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { operatingPoint } from '../../src/calc/circulation.ts';
import { fitToBaseline } from '../../src/calc/fit-baseline.ts';
import { genericPumpCurve } from '../../src/calc/pump-curve.ts';
import { typicalLoop } from '../../src/calc/typical-loop.ts';
import { PA_PER_INHG, PA_PER_PSI, W_PER_HP } from '../../src/calc/units.ts';

const loop = typicalLoop({ pumpCurve: genericPumpCurve(W_PER_HP), speedRatio: 1, filterType: 'sand' });

function shown(fitted: ReturnType<typeof fitToBaseline>) {
  if (fitted.kind !== 'fitted') throw new Error(fitted.reason);
  const point = operatingPoint(fitted.loop);
  if (point.kind !== 'flowing') throw new Error(point.reason);
  return point;
}

describe('a loop set to its clean baseline', () => {
  it('should show the readings that were noted, all three', () => {
    const psi = fc.double({ min: 6, max: 18, noNaN: true });
    const inHg = fc.double({ min: 4, max: 8, noNaN: true });
    const share = fc.double({ min: 0.2, max: 0.7, noNaN: true });
    fc.assert(
      fc.property(psi, inHg, share, (pressure, vacuum, part) => {
        const readings = {
          filterPressurePa: pressure * PA_PER_PSI,
          pumpVacuumPa: vacuum * PA_PER_INHG,
          cleanerSuctionPa: part * (vacuum - 1) * PA_PER_INHG,
        };
        const point = shown(fitToBaseline(loop, readings));
        expect(point.filterPressurePa / readings.filterPressurePa).toBeCloseTo(1, 8);
        expect(point.pumpVacuumPa / readings.pumpVacuumPa).toBeCloseTo(1, 8);
        expect(point.cleanerSuctionPa / readings.cleanerSuctionPa).toBeCloseTo(1, 8);
      }),
    );
  });

  it('should show a single reading too, and keep the others of the loop', () => {
    const before = operatingPoint(loop);
    if (before.kind !== 'flowing') throw new Error(before.reason);
    const point = shown(fitToBaseline(loop, { filterPressurePa: 12 * PA_PER_PSI }));
    expect(point.filterPressurePa / PA_PER_PSI).toBeCloseTo(12, 8);
    expect(point.pumpVacuumPa / before.pumpVacuumPa).toBeCloseTo(1, 8);
    expect(shown(fitToBaseline(loop, {})).flowM3PerS / before.flowM3PerS).toBeCloseTo(1, 8);
  });

  it('should allow for the speed and the impeller at which the readings were taken', () => {
    const worn = { ...loop, pump: { ...loop.pump, speedRatio: 0.8, impellerFactor: 0.85 }, leakAreaM2: 1e-6 };
    const readings = { filterPressurePa: 7 * PA_PER_PSI, pumpVacuumPa: 5 * PA_PER_INHG };
    const point = shown(fitToBaseline(worn, readings));
    expect(point.filterPressurePa / readings.filterPressurePa).toBeCloseTo(1, 8);
    expect(point.pumpVacuumPa / readings.pumpVacuumPa).toBeCloseTo(1, 8);
    expect(point.airFraction).toBe(0);
  });

  it('should refuse readings that this pump and these heights cannot show', () => {
    expect(fitToBaseline(loop, { filterPressurePa: 60 * PA_PER_PSI })).toMatchObject({
      reason: 'beyond-pump',
    });
    expect(fitToBaseline(loop, { pumpVacuumPa: 0 })).toMatchObject({ reason: 'vacuum-too-low' });
    expect(fitToBaseline(loop, { filterPressurePa: -9000 })).toMatchObject({ reason: 'pressure-too-low' });
    expect(fitToBaseline(loop, { cleanerSuctionPa: 20 * PA_PER_INHG })).toMatchObject({
      reason: 'suction-too-high',
    });
    const stopped = { ...loop, pump: { ...loop.pump, speedRatio: 0 } };
    expect(fitToBaseline(stopped, {})).toMatchObject({ reason: 'no-flow' });
  });
});
