/** What a filter takes in and gives out: charge of diatomaceous earth, backwash water, acid bath. */
import { M2_PER_FT2 } from './units.ts';

/** Exact by definition (NIST SP 811, appendix B). */
export const KG_PER_LB = 0.45359237;

/**
 * Diatomaceous earth that coats a clean filter, kg: 1 lb for 10 ft² of filter area, m².
 * Source: common practice (from memory); the filter's own label decides.
 */
export function deChargeKg(filterAreaM2: number): number {
  return (filterAreaM2 / M2_PER_FT2 / 10) * KG_PER_LB;
}

/** Water sent out, m³, by a flow in m³/s kept up for some seconds. */
export function waterSentM3(flowM3PerS: number, seconds: number): number {
  return flowM3PerS * seconds;
}

/** Both parts of a bath, m³. */
export interface BathParts {
  readonly waterM3: number;
  readonly acidM3: number;
}

/** A bath of 1 part of acid to so many parts of water (above 0), by volume. The two parts make up the bath. */
export function bathParts(bathM3: number, waterParts: number): BathParts {
  const acidM3 = bathM3 / (1 + waterParts);
  return { acidM3, waterM3: bathM3 - acidM3 };
}
