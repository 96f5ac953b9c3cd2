import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Baseline } from '../../../src/engine/hydraulics/baseline.ts';
import { calibrate, type HydraulicModel } from '../../../src/engine/hydraulics/calibrate.ts';
import { GAUGE_KEYS } from '../../../src/engine/hydraulics/gauge-error.ts';
import { spreadOf } from '../../../src/engine/hydraulics/quantiles.ts';
import type { Equipment } from '../../../src/knowledge/schema.ts';
import { PA_PER_INHG, PA_PER_PSI } from '../../../src/calc/units.ts';
import { anyBaselines, anyEquipment, anyFacts } from './any-pool.ts';

const POOL: Equipment = { cleaner: 'suction', connection: 'port', pump: 'single-speed', filter: 'sand' };

function noted(psi?: number, inHg?: number, tester?: number): Baseline {
  return {
    ...(psi !== undefined && { filterPressurePa: psi * PA_PER_PSI }),
    ...(inHg !== undefined && { pumpVacuumPa: inHg * PA_PER_INHG }),
    ...(tester !== undefined && { cleanerSuctionPa: tester * PA_PER_INHG }),
  };
}

function modelOf(baselines: readonly Baseline[], equipment = POOL): HydraulicModel {
  const calibration = calibrate(equipment, baselines);
  if (calibration.kind === 'questioned') throw new Error(calibration.question.reason);
  return calibration.model;
}

function cleanSpread(model: HydraulicModel, gauge: (typeof GAUGE_KEYS)[number]): number {
  const spread = spreadOf(model.members.map(({ clean, weight }) => ({ value: clean[gauge], weight })))!;
  return spread.p90 - spread.p10;
}

describe('a pool known by its baselines', () => {
  it('should show what was read, each within its gauge error, and keep the unread gauge uncertain', () => {
    const model = modelOf([noted(14, 7)]);
    for (const { clean } of model.members) {
      expect(Math.abs(clean.filterPressurePa / PA_PER_PSI - 14)).toBeLessThan(3.5 * 0.7);
      expect(Math.abs(clean.pumpVacuumPa / PA_PER_INHG - 7)).toBeLessThan(3.5 * 0.5);
    }
    expect(cleanSpread(model, 'cleanerSuctionPa')).toBeGreaterThan(2 * PA_PER_INHG);
    expect(cleanSpread(modelOf([noted(14, 7, 3)]), 'cleanerSuctionPa')).toBeLessThan(1.1 * PA_PER_INHG);
  });

  it('should be surer of the clean gauges the more often they were noted', () => {
    const once = modelOf([noted(14, 7)]);
    const often = modelOf(Array.from({ length: 8 }, () => noted(14, 7)));
    expect(cleanSpread(often, 'filterPressurePa')).toBeLessThan(0.9 * cleanSpread(once, 'filterPressurePa'));
    expect(cleanSpread(often, 'pumpVacuumPa')).toBeLessThan(0.9 * cleanSpread(once, 'pumpVacuumPa'));
  });

  it('should put together gauges noted on different days', () => {
    const model = modelOf([noted(14), noted(undefined, 7)]);
    expect(cleanSpread(model, 'pumpVacuumPa')).toBeLessThan(2 * PA_PER_INHG);
    expect(model.baselines).toBe(2);
  });

  it('should use baselines of a variable-speed pump at two speeds', () => {
    const equipment: Equipment = { ...POOL, pump: 'variable-speed' };
    const slow = { ...noted(4.2, 2.9), speedRatio: 0.6 };
    const model = modelOf([{ ...noted(14, 7), speedRatio: 1 }, slow], equipment);
    for (const { loop } of model.members) expect([1, 0.6]).toContain(loop.pump.speedRatio);
  });

  it('should answer the same every time, with weights that sum to one', () => {
    const [first, second] = [modelOf([noted(14, 7)]), modelOf([noted(14, 7)])];
    expect(second).toEqual(first);
    expect(first.members.reduce((sum, { weight }) => sum + weight, 0)).toBeCloseTo(1, 12);
    expect(first.members.length).toBeGreaterThan(30);
  });
});

describe('a baseline that cannot be', () => {
  const questions: readonly (readonly [string, readonly Baseline[], string])[] = [
    ['a pressure no pool pump gives', [noted(50, 7)], 'beyond-pump'],
    ['a pressure past the scale', [noted(140)], 'beyond-scale'],
    ['a vacuum at which water boils', [noted(14, 29.5)], 'vacuum-beyond-boiling'],
    ['a vacuum at which the pump would cavitate', [noted(10, 27)], 'vacuum-beyond-boiling'],
    ['a tester above the pump vacuum', [noted(14, 5, 14)], 'suction-above-vacuum'],
    ['a negative reading', [noted(-3)], 'not-a-reading'],
    ['a reading that is no number', [noted(Number.NaN)], 'not-a-reading'],
    ['a speed that is none', [{ ...noted(14), speedRatio: 0 }], 'not-a-reading'],
    ['two clean pressures 10 psi apart', [noted(12), noted(22)], 'baselines-disagree'],
  ];
  for (const [name, baselines, reason] of questions)
    it(`should be questioned: ${name}`, () => {
      expect(calibrate(POOL, baselines)).toMatchObject({ kind: 'questioned', question: { reason } });
    });

  it('should not question two pressures that differ at two speeds', () => {
    const equipment: Equipment = { ...POOL, pump: 'variable-speed' };
    const baselines = [
      { ...noted(16), speedRatio: 1 },
      { ...noted(4), speedRatio: 0.55 },
    ];
    expect(calibrate(equipment, baselines).kind).toBe('calibrated');
  });
});

describe('any equipment, any baselines', () => {
  it('should never throw, and give finite pools or a reason', () => {
    let calibrated = 0;
    fc.assert(
      fc.property(anyEquipment, anyBaselines, anyFacts, (equipment, baselines, facts) => {
        const calibration = calibrate(equipment, baselines, facts);
        if (calibration.kind === 'questioned') return;
        calibrated += 1;
        for (const { clean, weight } of calibration.model.members) {
          expect(weight).toBeGreaterThan(0);
          for (const gauge of GAUGE_KEYS) expect(Number.isFinite(clean[gauge])).toBe(true);
          expect(clean.flowM3PerS).toBeGreaterThan(0);
        }
      }),
      { seed: 11, numRuns: 300 },
    );
    expect(calibrated).toBeGreaterThan(60);
  });
});
