/** Flow read off a pump curve by the two gauges at the pad. */
import type { PumpCurve } from './pump-curve.ts';
import { WATER_N_PER_M3 } from './units.ts';

/**
 * Total dynamic head, m, from filter pressure and pump vacuum, Pa, both positive: their sum as a head of water.
 * The heights of the gauges and the velocity heads are left out: some 0.5 m either way.
 */
export function totalDynamicHeadM(filterPressurePa: number, pumpVacuumPa: number): number {
  return (filterPressurePa + pumpVacuumPa) / WATER_N_PER_M3;
}

/** Flow, m³/s, at which a pump at full speed gives this head: Q = √((H0 − H) / c). Undefined at or above shut-off. */
export function flowAtHeadM3PerS(curve: PumpCurve, headM: number): number | undefined {
  const spareM = curve.shutOffHeadM - headM;
  return spareM > 0 ? Math.sqrt(spareM / curve.curveCoefficient) : undefined;
}
