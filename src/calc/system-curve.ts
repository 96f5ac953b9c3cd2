/** The standard system curves on which pool pumps are rated. */
import { M3S_PER_GPM, M_PER_FT } from './units.ts';

export type SystemCurve = 'A' | 'B' | 'C';

/** H in ft, Q in gpm: H = coefficient Q² (from memory; C as in the United States test procedure for pool pumps). */
const FT_PER_GPM2: Record<SystemCurve, number> = { A: 0.0167, B: 0.05, C: 0.0082 };

/** The coefficient k, s²/m⁵, of a standard system curve: H = k Q². */
function systemCurveCoefficient(curve: SystemCurve): number {
  return (FT_PER_GPM2[curve] * M_PER_FT) / (M3S_PER_GPM * M3S_PER_GPM);
}

/** Head in m of a standard system curve at a flow in m³/s. */
export function systemCurveHeadM(curve: SystemCurve, flowM3PerS: number): number {
  return systemCurveCoefficient(curve) * flowM3PerS * flowM3PerS;
}
