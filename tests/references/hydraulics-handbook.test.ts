/** The phenomena, one by one, against published numbers. "From memory" marks what was not looked up again. */
import { describe, expect, it } from 'vitest';
import { filterLoadingMPerS, isOverloaded, M_PER_S_PER_GPM_PER_FT2 } from '../../src/calc/filter-loss.ts';
import { npshAvailableM, npshRequiredM } from '../../src/calc/npsh.ts';
import { dutyAtSpeed, genericPumpCurve } from '../../src/calc/pump-curve.ts';
import { systemCurveHeadM } from '../../src/calc/system-curve.ts';
import {
  ATMOSPHERE_PA,
  M2_PER_FT2,
  M3S_PER_GPM,
  M3_PER_US_GAL,
  M_PER_FT,
  W_PER_HP,
  fromM3PerS,
  fromPascal,
  toM3PerS,
  toPascal,
} from '../../src/calc/units.ts';
import { vapourPressurePa, waterDensityKgPerM3, waterViscosityPaS } from '../../src/calc/water.ts';

function relative(value: number, reference: number): number {
  return Math.abs(value / reference - 1);
}

describe('units', () => {
  // NIST SP 811 (2008), appendix B.8.
  it('should have the factors of NIST SP 811', () => {
    expect(toPascal(1, 'psi')).toBe(6894.757);
    expect(toPascal(1, 'inHg')).toBe(3386.389);
    expect(toM3PerS(1, 'gpm')).toBe(6.30902e-5);
    expect(W_PER_HP).toBe(745.6999);
    expect(M3_PER_US_GAL).toBe(3.785412e-3);
    expect(M2_PER_FT2).toBe(0.09290304);
    // A gallon a minute is a gallon over sixty seconds.
    expect(relative(M3S_PER_GPM, M3_PER_US_GAL / 60)).toBeLessThan(1e-6);
  });

  // Pump handbooks: 1 psi = 2.307 to 2.31 ft of water = 2.036 inHg (mercury at 0 °C).
  it('should turn a psi into feet of water and inches of mercury', () => {
    expect(fromPascal(toPascal(1, 'psi'), 'ft')).toBeCloseTo(2.309, 2);
    expect(fromPascal(toPascal(1, 'psi'), 'inHg')).toBeCloseTo(2.036, 3);
  });

  // Cubic metre an hour 4.403 gpm, litre a minute 0.2642 gpm: any conversion table.
  it('should turn flows', () => {
    expect(fromM3PerS(toM3PerS(1, 'm3/h'), 'gpm')).toBeCloseTo(4.403, 3);
    expect(fromM3PerS(toM3PerS(1, 'l/min'), 'gpm')).toBeCloseTo(0.2642, 4);
    expect(fromM3PerS(toM3PerS(7, 'gpm'), 'l/min')).toBeCloseTo(26.5, 2);
  });
});

describe('water', () => {
  // Steam tables (IAPWS): saturation pressure in kPa.
  it.each([
    [0.01, 0.61166],
    [10, 1.2282],
    [20, 2.3393],
    [25, 3.1699],
    [30, 4.247],
    [40, 7.3849],
  ])('should boil at %f °C under %f kPa', (waterC, kPa) => {
    expect(relative(vapourPressurePa(waterC), kPa * 1000)).toBeLessThan(2e-4);
  });

  // CRC Handbook of Chemistry and Physics, density of water in kg/m³ (from memory).
  it.each([
    [4, 999.97],
    [10, 999.7],
    [20, 998.21],
    [30, 995.65],
    [40, 992.22],
  ])('should weigh at %f °C %f kg/m³', (waterC, density) => {
    expect(Math.abs(waterDensityKgPerM3(waterC) - density)).toBeLessThan(0.03);
  });

  // IAPWS: 1.0016 mPa·s at 20 °C, 0.7972 at 30 °C (from memory).
  it.each([
    [20, 1.0016e-3],
    [30, 0.7972e-3],
  ])('should have at %f °C the viscosity %f', (waterC, viscosity) => {
    expect(relative(waterViscosityPaS(waterC), viscosity)).toBeLessThan(0.01);
  });

  // Water barometer less vapour pressure: (101.325 − 2.339) kPa / (998.2 · 9.80665 N/m³) = 10.11 m.
  it('should leave 10.11 m of NPSH at the surface at 20 °C and sea level', () => {
    expect(npshAvailableM(0, 20, ATMOSPHERE_PA)).toBeCloseTo(10.11, 2);
  });

  // Suction specific speed 8500 in US units, 60 gpm at 3450 rpm, by hand: (3450·√60/8500)^(4/3) = 3.144^(4/3) = 4.61 ft.
  it('should require the NPSH of the suction specific speed', () => {
    expect(npshRequiredM(60 * M3S_PER_GPM, 1) / M_PER_FT).toBeCloseTo(4.61, 2);
  });
});

describe('affinity laws', () => {
  // Any pump handbook: half speed gives half the flow, a quarter of the head, an eighth of the power.
  it('should give half, a quarter and an eighth at half speed', () => {
    expect(dutyAtSpeed({ flowM3PerS: 0.004, headM: 16, powerW: 1200 }, 0.5)).toEqual({
      flowM3PerS: 0.002,
      headM: 4,
      powerW: 150,
    });
  });

  it('should keep the generic pump on its own curve at any speed', () => {
    const curve = genericPumpCurve(W_PER_HP);
    const flow = 0.003;
    const head = curve.shutOffHeadM - curve.curveCoefficient * flow * flow;
    const slower = dutyAtSpeed({ flowM3PerS: flow, headM: head, powerW: 700 }, 0.6);
    const onSlowCurve = 0.36 * curve.shutOffHeadM - curve.curveCoefficient * slower.flowM3PerS ** 2;
    expect(relative(slower.headM, onSlowCurve)).toBeLessThan(1e-12);
  });
});

describe('system curves for rating pool pumps', () => {
  // H = 0.0167 Q² (A), 0.050 Q² (B), 0.0082 Q² (C), ft and gpm (from memory; C of the federal test procedure,
  // 10 CFR 431 subpart Y): A passes 60 ft at 60 gpm, B 80 ft at 40 gpm, C 52.5 ft at 80 gpm.
  it.each([
    ['A', 60, 60.12],
    ['B', 40, 80],
    ['C', 80, 52.48],
  ] as const)('should pass on curve %s at %f gpm through %f ft', (curve, gpm, feet) => {
    expect(systemCurveHeadM(curve, gpm * M3S_PER_GPM) / M_PER_FT).toBeCloseTo(feet, 6);
  });
});

describe('filter loading', () => {
  // Upper design rates of the trade, gpm/ft² (from memory): sand 20, de 2, cartridge 1.
  it.each([
    ['sand', 3.14, 62, 64],
    ['de', 36, 71, 73],
    ['cartridge', 50, 49, 51],
  ] as const)('should warn on a %s filter of %f ft² not at %f gpm but at %f', (type, ft2, below, above) => {
    expect(isOverloaded(type, ft2 * M2_PER_FT2, below * M3S_PER_GPM)).toBe(false);
    expect(isOverloaded(type, ft2 * M2_PER_FT2, above * M3S_PER_GPM)).toBe(true);
  });

  // 1 gpm/ft² is 2.445 m/h: filtration rates in European tables.
  it('should be the filtration velocity', () => {
    expect(M_PER_S_PER_GPM_PER_FT2 * 3600).toBeCloseTo(2.445, 3);
    expect(filterLoadingMPerS(60 * M3S_PER_GPM, 3 * M2_PER_FT2) / M_PER_S_PER_GPM_PER_FT2).toBeCloseTo(20, 9);
  });
});
