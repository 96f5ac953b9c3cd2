import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { calibrate } from '../../../src/engine/hydraulics/calibrate.ts';
import { predictedChange, type Change } from '../../../src/engine/hydraulics/change.ts';
import { EFFECTS } from '../../../src/knowledge/schema.ts';
import { M3S_PER_GPM, PA_PER_INHG, PA_PER_PSI } from '../../../src/calc/units.ts';
import { anyBaselines, anyEquipment, anyReadings } from './any-pool.ts';

const calibration = calibrate(
  { cleaner: 'suction', connection: 'port', filter: 'sand', pump: 'single-speed' },
  [{ filterPressurePa: 14 * PA_PER_PSI, pumpVacuumPa: 8 * PA_PER_INHG }],
);
if (calibration.kind === 'questioned') throw new Error(calibration.question.reason);
const { model } = calibration;
const HOSE_OFF: Change = { kind: 'hose-off' };

describe('a test with a change', () => {
  it('should lower the vacuum and raise pressure and flow when the hose comes off', () => {
    const by = predictedChange(model, 'none', HOSE_OFF);
    expect(by.pumpVacuumPa.mean).toBeLessThan(-2 * PA_PER_INHG);
    expect(by.filterPressurePa.mean).toBeGreaterThan(0);
    expect(by.flowM3PerS.mean).toBeGreaterThan(0);
  });

  it('should bring back a pump that draws air, since less vacuum draws less of it, more than a sound one', () => {
    const airy = { filterPressurePa: 8 * PA_PER_PSI, pumpVacuumPa: 5 * PA_PER_INHG };
    const recovers = predictedChange(model, 'air-at-pump', HOSE_OFF, airy).flowM3PerS.mean;
    const sound = predictedChange(model, 'none', HOSE_OFF).flowM3PerS.mean;
    expect(recovers).toBeGreaterThan(sound + 5 * M3S_PER_GPM);
    // A clogged impeller with the same readings gains little.
    expect(predictedChange(model, 'pump-curve-shrinks', HOSE_OFF, airy).flowM3PerS.mean).toBeLessThan(
      recovers / 2,
    );
  });

  it('should bring back a blocked hose by far more than a blocked common line', () => {
    const hose = predictedChange(model, 'cleaner-branch-blocked', HOSE_OFF).pumpVacuumPa.mean;
    const line = predictedChange(model, 'suction-blocked', HOSE_OFF).pumpVacuumPa.mean;
    expect(hose).toBeLessThan(2 * line);
  });

  it('should let every gauge fall to rest when the pump stops, but for a stuck one', () => {
    const stopped = predictedChange(model, 'none', { kind: 'pump-stopped' });
    expect(stopped.filterPressurePa.mean / PA_PER_PSI).toBeCloseTo(-14.4, -0.5);
    expect(stopped.flowM3PerS.mean).toBeLessThan(-20 * M3S_PER_GPM);
    const stuck = predictedChange(model, 'gauge-stuck', { kind: 'pump-stopped' });
    expect(stuck.filterPressurePa).toEqual({ mean: 0, sd: 0 });
    expect(stuck.pumpVacuumPa.mean).toBeLessThan(0);
  });

  it('should take about half the flow at half the speed (affinity laws)', () => {
    const full = -predictedChange(model, 'none', { kind: 'pump-stopped' }).flowM3PerS.mean;
    const lost = -predictedChange(model, 'none', { kind: 'speed', ratio: 0.5 }).flowM3PerS.mean;
    expect(lost / full).toBeGreaterThan(0.48);
    expect(lost / full).toBeLessThan(0.56);
  });

  it('should show no suction at the tester with the cleaner line closed', () => {
    const before = predictedChange(model, 'none', { kind: 'pump-stopped' }).cleanerSuctionPa.mean;
    const closed = predictedChange(model, 'none', { kind: 'skimmer-only' }).cleanerSuctionPa.mean;
    expect(closed).toBeCloseTo(before, 6);
  });

  it('should be finite and never throw', () => {
    const change: fc.Arbitrary<Change> = fc.oneof(
      fc.constantFrom<Change>({ kind: 'hose-off' }, { kind: 'skimmer-only' }, { kind: 'pump-stopped' }),
      fc.double().map((ratio) => ({ kind: 'speed' as const, ratio })),
    );
    fc.assert(
      fc.property(
        anyEquipment,
        anyBaselines,
        fc.constantFrom(...EFFECTS),
        change,
        anyReadings,
        (equipment, baselines, effect, how, readings) => {
          const made = calibrate(equipment, baselines);
          if (made.kind === 'questioned') return;
          for (const { mean, sd } of Object.values(predictedChange(made.model, effect, how, readings)))
            expect(Number.isFinite(mean) && Number.isFinite(sd)).toBe(true);
        },
      ),
      { seed: 5, numRuns: 300 },
    );
  });
});
