import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { calibrate, type HydraulicModel } from '../../../src/engine/hydraulics/calibrate.ts';
import {
  bandProbabilities,
  effectLogLikelihoods,
  readingsLogLikelihood,
} from '../../../src/engine/hydraulics/likelihood.ts';
import { EFFECTS } from '../../../src/knowledge/schema.ts';
import { PA_PER_INHG, PA_PER_PSI } from '../../../src/calc/units.ts';
import { anyBaselines, anyEquipment, anyReadings } from './any-pool.ts';

function modelWith(psi: number, inHg: number): HydraulicModel {
  const calibration = calibrate({ cleaner: 'suction', filter: 'sand', pump: 'single-speed' }, [
    { filterPressurePa: psi * PA_PER_PSI, pumpVacuumPa: inHg * PA_PER_INHG },
  ]);
  if (calibration.kind === 'questioned') throw new Error(calibration.question.reason);
  return calibration.model;
}

const model = modelWith(14, 7);

describe('the likelihood of readings', () => {
  it('should integrate to one over both gauges', () => {
    for (const effect of ['none', 'suction-blocked', 'air-at-pump', 'gauge-stuck'] as const) {
      const step = 0.1;
      let sum = 0;
      // Well below zero too: the density knows no pin, only the bands do.
      for (let psi = -6; psi < 60; psi += step * 2)
        for (let inHg = -4; inHg < 36; inHg += step * 2) {
          const readings = { filterPressurePa: psi * PA_PER_PSI, pumpVacuumPa: inHg * PA_PER_INHG };
          sum += Math.exp(readingsLogLikelihood(model, effect, readings));
        }
      const cell = 2 * step * PA_PER_PSI * 2 * step * PA_PER_INHG;
      // The background is spread over the scales only but counted here over a little more.
      expect(sum * cell).toBeGreaterThan(0.98);
      expect(sum * cell).toBeLessThan(1.02);
    }
  });

  it('should rank what the trade would: high pressure and low vacuum lie after the gauge', () => {
    const logs = effectLogLikelihoods(model, {
      filterPressurePa: 24 * PA_PER_PSI,
      pumpVacuumPa: 4 * PA_PER_INHG,
    });
    const ranked = EFFECTS.toSorted((a, b) => logs[b] - logs[a]);
    expect(new Set(ranked.slice(0, 2))).toEqual(new Set(['filter-blocked', 'return-blocked']));
  });

  it('should judge gauges together: one low pressure fits many faults, with a high vacuum few', () => {
    const pressure = { filterPressurePa: 11 * PA_PER_PSI };
    const both = { ...pressure, pumpVacuumPa: 17 * PA_PER_INHG };
    const gap = (readings: Partial<Record<string, number>>): number =>
      readingsLogLikelihood(model, 'suction-blocked', readings) -
      readingsLogLikelihood(model, 'pump-curve-shrinks', readings);
    expect(gap(both)).toBeGreaterThan(gap(pressure) + 2);
  });

  it('should say nothing where nothing was read, and leave out a reading that is no number', () => {
    expect(readingsLogLikelihood(model, 'none', {})).toBe(0);
    const one = { filterPressurePa: 14 * PA_PER_PSI };
    expect(readingsLogLikelihood(model, 'none', { ...one, pumpVacuumPa: Number.NaN })).toBe(
      readingsLogLikelihood(model, 'none', one),
    );
  });

  it('should be finite and never throw for any pool and reading', () => {
    fc.assert(
      fc.property(anyEquipment, anyBaselines, anyReadings, (equipment, baselines, readings) => {
        const calibration = calibrate(equipment, baselines);
        if (calibration.kind === 'questioned') return;
        for (const log of Object.values(effectLogLikelihoods(calibration.model, readings)))
          expect(Number.isFinite(log)).toBe(true);
      }),
      { seed: 8, numRuns: 120 },
    );
  });
});

describe('the bands of one gauge', () => {
  const edges = [3, 6, 8, 12, 20].map((inHg) => inHg * PA_PER_INHG);

  it('should sum to one and leave no band without a chance', () => {
    for (const effect of EFFECTS) {
      const bands = bandProbabilities(model, 'pump-vacuum', effect, edges);
      expect(bands).toHaveLength(6);
      expect(bands.reduce((sum, band) => sum + band, 0)).toBeCloseTo(1, 9);
      for (const band of bands) expect(band).toBeGreaterThan(0);
    }
  });

  it('should agree with the likelihood of the readings summed over the band', () => {
    for (const effect of ['none', 'suction-blocked', 'filter-blocked'] as const) {
      let sum = 0;
      for (let inHg = 8.005; inHg < 12; inHg += 0.01)
        sum += Math.exp(readingsLogLikelihood(model, effect, { pumpVacuumPa: inHg * PA_PER_INHG }));
      const band = bandProbabilities(model, 'pump-vacuum', effect, edges)[3]!;
      expect(sum * 0.01 * PA_PER_INHG).toBeCloseTo(band, 3);
    }
  });

  it('should expect a clean pool about its baseline and a stopped one at rest', () => {
    expect(bandProbabilities(model, 'pump-vacuum', 'none', edges)[2]).toBeGreaterThan(0.75);
    expect(bandProbabilities(model, 'pump-vacuum', 'no-flow', edges)[0]).toBeGreaterThan(0.8);
    const psi = [1, 10].map((value) => value * PA_PER_PSI);
    expect(bandProbabilities(model, 'filter-pressure', 'no-flow', psi)[0]).toBeGreaterThan(0.8);
  });
});
