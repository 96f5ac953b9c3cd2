/** Pipe friction and velocity against published tables. "From memory" marks what was not looked up again. */
import { describe, expect, it } from 'vitest';
import {
  VELOCITY_LIMIT_M_PER_S,
  darcyWeisbachLossM,
  frictionFactor,
  hazenWilliamsLossM,
  minorLossM,
  velocityMPerS,
} from '../../src/calc/pipe-friction.ts';
import { M3S_PER_GPM, M_PER_FT, M_PER_IN, fromM3PerS } from '../../src/calc/units.ts';

function relative(value: number, reference: number): number {
  return Math.abs(value / reference - 1);
}

describe('Hazen-Williams friction', () => {
  const cases = [
    [30, 1.61, 150],
    [50, 2.067, 150],
    [60, 2.067, 140],
    [100, 2.469, 150],
    [150, 3.068, 100],
  ] as const;

  // NFPA 13: p [psi/ft] = 4.52 Q^1.85 / (C^1.85 d^4.87), Q in gpm, d in inches (formula from memory).
  it.each(cases)('should agree with NFPA 13 for %f gpm in %f in, C %f', (gpm, inches, roughness) => {
    const psiPerFt = (4.52 * gpm ** 1.85) / (roughness ** 1.85 * inches ** 4.87);
    const pipe = { lengthM: M_PER_FT, diameterM: inches * M_PER_IN };
    const lossM = hazenWilliamsLossM(gpm * M3S_PER_GPM, pipe, roughness);
    expect(relative(lossM, psiPerFt * 2.307 * M_PER_FT)).toBeLessThan(0.01);
  });

  // EPANET 2 Users Manual, table 3.1: h = 4.727 C^-1.852 d^-4.871 L Q^1.852, feet and cubic feet a second.
  it.each(cases)(
    'should agree with the EPANET manual for %f gpm in %f in, C %f',
    (gpm, inches, roughness) => {
      const cubicFeet = (gpm * M3S_PER_GPM) / M_PER_FT ** 3;
      const feet = 4.727 * roughness ** -1.852 * (inches / 12) ** -4.871 * 100 * cubicFeet ** 1.852;
      const pipe = { lengthM: 100 * M_PER_FT, diameterM: inches * M_PER_IN };
      expect(relative(hazenWilliamsLossM(gpm * M3S_PER_GPM, pipe, roughness) / M_PER_FT, feet)).toBeLessThan(
        0.005,
      );
    },
  );
});

describe('Darcy-Weisbach friction', () => {
  // Cameron Hydraulic Data, new steel pipe schedule 40, water at 60 °F, ft lost in 100 ft (from memory).
  it.each([
    [50, 2.067, 4.67],
    [100, 3.068, 2.39],
  ])('should lose in 100 ft, %f gpm through %f in, %f ft', (gpm, inches, feet) => {
    const pipe = { lengthM: 100 * M_PER_FT, diameterM: inches * M_PER_IN };
    const loss = darcyWeisbachLossM(gpm * M3S_PER_GPM, pipe, 0.00015 * M_PER_FT, 1.13e-6);
    expect(relative(loss / M_PER_FT, feet)).toBeLessThan(0.02);
  });

  /** Colebrook (1939): 1/√f = −2 log10(ε/(3.7 D) + 2.51/(Re √f)), by repeated substitution. */
  function colebrook(reynolds: number, roughness: number): number {
    let inverseRoot = 8;
    for (let round = 0; round < 60; round += 1)
      inverseRoot = -2 * Math.log10(roughness / 3.7 + (2.51 * inverseRoot) / reynolds);
    return 1 / (inverseRoot * inverseRoot);
  }

  // Swamee and Jain (1976) state 1 %; over the wide range below reviews find up to 3 %.
  it('should have a friction factor within 3 % of Colebrook, within 1.1 % in smooth pool pipe', () => {
    let worst = 0;
    for (let exponent = Math.log10(5000); exponent <= 8; exponent += 0.1)
      for (const roughness of [1e-6, 1e-5, 1e-4, 1e-3, 1e-2]) {
        const reynolds = 10 ** exponent;
        const difference = relative(frictionFactor(reynolds, roughness), colebrook(reynolds, roughness));
        worst = Math.max(worst, difference);
        if (roughness < 1e-4 && reynolds > 2e4 && reynolds < 5e5) expect(difference).toBeLessThan(0.011);
      }
    console.log(`Swamee-Jain against Colebrook: worst ${(worst * 100).toFixed(2)} %`);
    expect(worst).toBeLessThan(0.03);
  });

  // Hagen-Poiseuille: h = 128 ν L Q / (π g D⁴).
  it('should be Hagen-Poiseuille below Reynolds 2300, and nothing without flow', () => {
    const pipe = { lengthM: 10, diameterM: 0.05 };
    const exact = (128 * 1e-6 * 10 * 5e-5) / (Math.PI * 9.80665 * 0.05 ** 4);
    expect(relative(darcyWeisbachLossM(5e-5, pipe, 1e-6, 1e-6), exact)).toBeLessThan(1e-9);
    expect(darcyWeisbachLossM(0, pipe, 1e-6, 1e-6)).toBe(0);
  });

  // Velocity head at 10 ft/s is 1.554 ft (v²/2g, any handbook): a fitting of ζ 2 loses twice that.
  it('should lose velocity heads in fittings', () => {
    const flow = 10 * M_PER_FT * (Math.PI / 4) * 0.05 ** 2;
    expect(minorLossM(flow, 2, 0.05) / M_PER_FT).toBeCloseTo(2 * 1.554, 2);
  });
});

describe('velocity', () => {
  // Crane TP-410: v [ft/s] = 0.4085 Q/d², gpm and inches; table: 50 gpm in 2 in schedule 40 runs 4.78 ft/s.
  it('should be that of the pipe tables', () => {
    expect(velocityMPerS(50 * M3S_PER_GPM, 2.067 * M_PER_IN) / M_PER_FT).toBeCloseTo(4.78, 2);
    expect(velocityMPerS(100 * M3S_PER_GPM, 3.068 * M_PER_IN) / M_PER_FT).toBeCloseTo(4.34, 2);
    expect(velocityMPerS(30 * M3S_PER_GPM, 1.61 * M_PER_IN) / M_PER_FT).toBeCloseTo(
      (0.4085 * 30) / 1.61 ** 2,
      2,
    );
  });

  // The trade's flow table for schedule 40 pipe at 6 and 8 ft/s (from memory, residential standard), gpm.
  it.each([
    [1.61, 38, 51],
    [2.067, 63, 84],
    [2.469, 90, 119],
  ])('should reach the warning in %f in pipe at %f gpm suction, %f gpm return', (inches, suction, back) => {
    const area = (Math.PI / 4) * (inches * M_PER_IN) ** 2;
    expect(Math.abs(fromM3PerS(VELOCITY_LIMIT_M_PER_S.suction * area, 'gpm') - suction)).toBeLessThan(1);
    expect(Math.abs(fromM3PerS(VELOCITY_LIMIT_M_PER_S.return * area, 'gpm') - back)).toBeLessThan(1);
  });
});
