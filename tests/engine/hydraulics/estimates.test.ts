import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { calibrate, type HydraulicModel } from '../../../src/engine/hydraulics/calibrate.ts';
import { estimates } from '../../../src/engine/hydraulics/estimates.ts';
import type { KnownFacts } from '../../../src/engine/hydraulics/prior.ts';
import type { Equipment } from '../../../src/knowledge/schema.ts';
import { M2_PER_FT2, PA_PER_INHG, PA_PER_PSI } from '../../../src/calc/units.ts';
import { anyBaselines, anyEquipment, anyReadings } from './any-pool.ts';

const CLEAN = { filterPressurePa: 14 * PA_PER_PSI, pumpVacuumPa: 7 * PA_PER_INHG };
const POOL: Equipment = { cleaner: 'suction', filter: 'sand', pump: 'variable-speed' };

function modelOf(equipment: Equipment, known: KnownFacts = {}): HydraulicModel {
  const calibration = calibrate(equipment, [CLEAN], { speedRatio: 1, ...known });
  if (calibration.kind === 'questioned') throw new Error(calibration.question.reason);
  return calibration.model;
}

const model = modelOf(POOL);

describe('what a technician wants to know', () => {
  it('should keep turnover, velocity and loading in step with the flow', () => {
    const { flowM3PerS, ...found } = estimates(model, undefined, { volumeM3: 60, suctionPipeM: 0.05 })!;
    expect(found.turnoverS!.p50).toBeCloseTo(60 / flowM3PerS.p50, -1);
    expect(found.turnoverS!.p10).toBeCloseTo(60 / flowM3PerS.p90, -1);
    expect(found.suctionVelocityMPerS.value.p50).toBeCloseTo(flowM3PerS.p50 / (Math.PI * 0.025 ** 2), 6);
    expect(found.suctionVelocityMPerS).toMatchObject({ limit: 1.8288, assumed: false });
    expect(found.returnVelocityMPerS).toMatchObject({ limit: 2.4384, assumed: true });
    expect(found.filterLoadingMPerS!.assumed).toBe(true);
    const known = estimates(modelOf(POOL, { filterAreaM2: 3.14 * M2_PER_FT2 }))!;
    expect(known.filterLoadingMPerS!.assumed).toBe(false);
  });

  it('should leave out what it cannot know', () => {
    const found = estimates(modelOf({ cleaner: 'suction', pump: 'single-speed' }))!;
    expect(found.turnoverS).toBeUndefined();
    expect(found.filterLoadingMPerS).toBeUndefined();
    expect(found.speeds).toBeUndefined();
    expect(estimates(model, undefined, { shares: { 'no-flow': 1 } })).toBeUndefined();
  });

  it('should foretell the clean flow and pressure from readings with a dirty filter', () => {
    const dirty = { filterPressurePa: 22 * PA_PER_PSI, pumpVacuumPa: 4.5 * PA_PER_INHG };
    const found = estimates(model, dirty, { shares: { 'filter-blocked': 1 } })!;
    expect(found.afterFilterClean.flowM3PerS.p50).toBeGreaterThan(1.15 * found.flowM3PerS.p50);
    expect(found.afterFilterClean.filterPressurePa.p50 / PA_PER_PSI).toBeCloseTo(14, -0.3);
    // A valve that is closed behind the filter is not opened by cleaning the filter.
    const closed = estimates(model, dirty, { shares: { 'return-blocked': 1 } })!;
    expect(closed.afterFilterClean.flowM3PerS.p50).toBeLessThan(1.1 * closed.flowM3PerS.p50);
  });

  it('should spend about the cube of the speed in power and its square in energy a cubic metre', () => {
    const options = { volumeM3: 60, pricePerKWh: 0.2, speedRatios: [0.5, 1] };
    const [half, full] = estimates(model, undefined, options)!.speeds!;
    expect(half!.powerW.p50 / full!.powerW.p50).toBeCloseTo(0.125, 1);
    expect(half!.energyJPerM3.p50 / full!.energyJPerM3.p50).toBeCloseTo(0.25, 1);
    expect(half!.turnoverCost!.p50).toBeCloseTo((half!.turnoverJ!.p50 / 3.6e6) * 0.2, 9);
    expect(full!.turnoverS!.p50).toBeLessThan(half!.turnoverS!.p50);
    // 300 to 2500 W: what pool pumps of this size draw at full speed (common practice, no source).
    expect(full!.powerW.p10).toBeGreaterThan(300);
    expect(full!.powerW.p90).toBeLessThan(3500);
  });

  it('should warn of a pump near to cavitating where the vacuum is deep', () => {
    const deep = estimates(model, { filterPressurePa: 9 * PA_PER_PSI, pumpVacuumPa: 24 * PA_PER_INHG })!;
    expect(deep.npshMarginM.p50).toBeLessThan(estimates(model)!.npshMarginM.p50 - 3);
  });

  it('should keep its points in order and finite, and never throw', () => {
    fc.assert(
      fc.property(anyEquipment, anyBaselines, anyReadings, (equipment, baselines, readings) => {
        const made = calibrate(equipment, baselines);
        if (made.kind === 'questioned') return;
        const found = estimates(made.model, readings, { volumeM3: 50, pricePerKWh: 0.3 });
        if (!found) return;
        const { flowM3PerS, cleanerFlowM3PerS, totalDynamicHeadM, npshMarginM, turnoverS, speeds } = found;
        const extra = (speeds ?? []).flatMap(({ powerW, turnoverCost }) => [powerW, turnoverCost!]);
        for (const spread of [
          flowM3PerS,
          cleanerFlowM3PerS,
          totalDynamicHeadM,
          npshMarginM,
          turnoverS!,
          ...extra,
        ]) {
          expect(Number.isFinite(spread.p10) && Number.isFinite(spread.p90)).toBe(true);
          expect(spread.p10).toBeLessThanOrEqual(spread.p50);
          expect(spread.p50).toBeLessThanOrEqual(spread.p90);
        }
      }),
      { seed: 21, numRuns: 100 },
    );
  });
});
