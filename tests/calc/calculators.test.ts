/** The numbers behind the calculators, each against its source. */
import { describe, expect, it } from 'vitest';
import { bathParts, deChargeKg, KG_PER_LB, waterSentM3 } from '../../src/calc/dosing.ts';
import { flowAtHeadM3PerS, totalDynamicHeadM } from '../../src/calc/flow-from-gauges.ts';
import { flowAtVelocityM3PerS, pipeBore, runLoss } from '../../src/calc/pipe-run.ts';
import { genericPumpCurve, pumpHeadM } from '../../src/calc/pump-curve.ts';
import { energyWh, runningCost } from '../../src/calc/running-cost.ts';
import { flowForTurnoverM3PerS, turnoverHours } from '../../src/calc/turnover.ts';
import {
  M2_PER_FT2,
  M3S_PER_GPM,
  M3_PER_US_GAL,
  M_PER_FT,
  M_PER_IN,
  PA_PER_INHG,
  PA_PER_PSI,
  W_PER_HP,
} from '../../src/calc/units.ts';
import {
  circleAreaM2,
  kidneyAreaM2,
  meanDepthM,
  ovalAreaM2,
  rectangleAreaM2,
} from '../../src/calc/volume.ts';

/** A US gallon is 231 cubic inches. Source: NIST Handbook 44, appendix C. */
const GALLONS_PER_FT3 = 12 ** 3 / 231;

const relative = (value: number, reference: number): number => Math.abs(value / reference - 1);
const gallons = (m3: number): number => m3 / M3_PER_US_GAL;

describe('pool volume', () => {
  it('should hold 7.48 gallons a cubic foot', () => {
    expect(relative(gallons(M_PER_FT ** 3), GALLONS_PER_FT3)).toBeLessThan(1e-6);
  });

  it('should be exact for a rectangle with an even slope', () => {
    const m3 = rectangleAreaM2(32 * M_PER_FT, 16 * M_PER_FT) * meanDepthM(3.5 * M_PER_FT, 8 * M_PER_FT);
    expect(relative(gallons(m3), 32 * 16 * 5.75 * GALLONS_PER_FT3)).toBeLessThan(1e-6);
  });

  // Geometry: a circle of radius 12, and an ellipse of half axes 16 and 8.
  it('should be exact for a circle and an ellipse', () => {
    expect(circleAreaM2(24)).toBeCloseTo(Math.PI * 12 ** 2, 10);
    expect(ovalAreaM2(32, 16)).toBeCloseTo(Math.PI * 16 * 8, 10);
    expect(ovalAreaM2(24, 24)).toBeCloseTo(circleAreaM2(24), 10);
  });

  // Common practice, no source: 0.45 (A + B) L. A kidney lies within its rectangle and outside half of it.
  it('should take a kidney by the rule of thumb', () => {
    expect(kidneyAreaM2(32, 18, 14)).toBeCloseTo(0.45 * 32 * 32, 10);
    expect(kidneyAreaM2(32, 16, 16)).toBeLessThan(rectangleAreaM2(32, 16));
    expect(kidneyAreaM2(32, 16, 16)).toBeGreaterThan(rectangleAreaM2(32, 16) / 2);
  });
});

describe('turnover', () => {
  // Arithmetic: 21 600 gal at 45 gpm takes 480 min.
  it('should take 8 h for 21 600 gal at 45 gpm, and ask 45 gpm for 8 h', () => {
    const volume = 21_600 * M3_PER_US_GAL;
    expect(turnoverHours(volume, 45 * M3S_PER_GPM)).toBeCloseTo(8, 4);
    expect(flowForTurnoverM3PerS(volume, 8) / M3S_PER_GPM).toBeCloseTo(45, 4);
  });
});

describe('a run of plastic pipe', () => {
  // ASTM D1785, schedule 40: inside 1.610 in for 1½ in, 2.067 in for 2 in (from memory).
  it('should know schedule 40', () => {
    expect(pipeBore(1.5 * M_PER_IN)).toEqual({ insideM: 1.61 * M_PER_IN, taken: false });
    expect(pipeBore(2 * M_PER_IN).insideM).toBe(2.067 * M_PER_IN);
  });

  // EN ISO 1452 for 10 bar: 63 mm outside with a wall of 3.0 mm, 50 mm with 2.4 mm (from memory).
  it('should know metric pipe, and not take 63 mm for 2½ in', () => {
    expect(pipeBore(0.063).insideM).toBeCloseTo(0.063 - 2 * 0.003, 10);
    expect(pipeBore(0.05).insideM).toBeCloseTo(0.05 - 2 * 0.0024, 10);
    expect(pipeBore(2.5 * M_PER_IN).insideM).toBe(2.469 * M_PER_IN);
  });

  it('should say where it took the size itself', () => {
    expect(pipeBore(0.0481)).toEqual({ insideM: 0.0481, taken: true });
  });

  // NFPA 13: p [psi/ft] = 4.52 Q^1.85 / (C^1.85 d^4.87), Q in gpm, d in inches (formula from memory).
  it('should lose in 60 ft of 1½ in at 45 gpm what NFPA 13 gives', () => {
    const psi = (60 * 4.52 * 45 ** 1.85) / (150 ** 1.85 * 1.61 ** 4.87);
    const { headM } = runLoss(45 * M3S_PER_GPM, 60 * M_PER_FT, 1.61 * M_PER_IN, 0);
    expect(relative(headM, psi * 2.307 * M_PER_FT)).toBeLessThan(0.01);
  });

  // Tables of plastic fittings: a 1½ in 90° elbow is worth 4.0 ft of pipe, a 2 in one 5.7 ft (from memory).
  it.each([
    [1.61, 4],
    [2.067, 5.7],
  ])('should count an elbow of %f in inside as about %f ft of pipe', (inches, feet) => {
    const loss = (lengthFt: number, elbows: number): number =>
      runLoss(40 * M3S_PER_GPM, lengthFt * M_PER_FT, inches * M_PER_IN, elbows).headM;
    const worthFt = ((loss(10, 1) - loss(10, 0)) / loss(10, 0)) * 10;
    expect(relative(worthFt, feet)).toBeLessThan(0.1);
  });

  // v [ft/s] = 0.4085 Q / d², gpm and inches: any pump handbook.
  it('should run at the velocity of the handbook formula, both ways', () => {
    const inside = 2.067 * M_PER_IN;
    const { velocityMPerS } = runLoss(60 * M3S_PER_GPM, 1, inside, 0);
    expect(relative(velocityMPerS / M_PER_FT, (0.4085 * 60) / 2.067 ** 2)).toBeLessThan(1e-3);
    expect(flowAtVelocityM3PerS(velocityMPerS, inside) / M3S_PER_GPM).toBeCloseTo(60, 8);
  });
});

describe('flow from two gauges', () => {
  // Pump handbooks: 1 psi is 2.31 ft and 1 inHg is 1.13 ft of water.
  it('should add both gauges to the total dynamic head', () => {
    const feet = totalDynamicHeadM(18 * PA_PER_PSI, 8 * PA_PER_INHG) / M_PER_FT;
    expect(relative(feet, 18 * 2.31 + 8 * 1.13)).toBeLessThan(0.005);
  });

  it('should find the flow at which the curve gives that head, and none beyond shut-off', () => {
    const curve = genericPumpCurve(W_PER_HP);
    const flow = flowAtHeadM3PerS(curve, 14);
    expect(pumpHeadM(curve, flow ?? NaN)).toBeCloseTo(14, 10);
    expect(flowAtHeadM3PerS(curve, curve.shutOffHeadM)).toBeUndefined();
    expect(flowAtHeadM3PerS(curve, curve.shutOffHeadM + 1)).toBeUndefined();
  });
});

describe('filter care', () => {
  // Common practice (from memory): 1 lb of diatomaceous earth for 10 ft². 1 lb = 0.45359237 kg: NIST SP 811.
  it('should charge 48 ft² with 4.8 lb', () => {
    expect(KG_PER_LB).toBe(0.45359237);
    expect(deChargeKg(48 * M2_PER_FT2) / KG_PER_LB).toBeCloseTo(4.8, 10);
  });

  it('should send out 180 gal in 3 min at 60 gpm', () => {
    expect(gallons(waterSentM3(60 * M3S_PER_GPM, 180))).toBeCloseTo(180, 3);
  });

  // Arithmetic: 1 part in 21.
  it('should mix 63 L at 1:20 of 60 L of water and 3 L of acid', () => {
    const { waterM3, acidM3 } = bathParts(0.063, 20);
    expect(waterM3).toBeCloseTo(0.06, 12);
    expect(acidM3).toBeCloseTo(0.003, 12);
  });
});

describe('running cost', () => {
  // Arithmetic: 1.5 kW for 8 h is 12 kWh, at 0.15 a kWh 1.80.
  it('should cost 1.80 a day', () => {
    expect(energyWh(1500, 8)).toBe(12_000);
    expect(runningCost(12_000, 0.15)).toBeCloseTo(1.8, 12);
  });
});
