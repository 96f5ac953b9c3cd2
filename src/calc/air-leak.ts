/** Air drawn in on the suction side, and what it does to a centrifugal pump. */

/** Air at about 20 °C and one atmosphere, kg/m³. */
const AIR_KG_PER_M3 = 1.204;

/** Discharge coefficient of a ragged small opening (handbooks: 0.6 for a sharp-edged orifice). */
const ORIFICE_COEFFICIENT = 0.6;

/**
 * Air drawn through a leak, m³/s at outside pressure: q = 0.6 A √(2 Δp / ρ_air). No vacuum, no air.
 * Range: Δp up to about half an atmosphere; above it a real leak chokes and this says too much.
 * Example: 1 mm² at 20 kPa → 1.1e-4.
 */
export function leakAirM3PerS(leakAreaM2: number, vacuumPa: number): number {
  return ORIFICE_COEFFICIENT * leakAreaM2 * Math.sqrt((2 * Math.max(0, vacuumPa)) / AIR_KG_PER_M3);
}

/** The (q²) of a leak for each metre of vacuum head: q² = this × h. Weight of water in N/m³. Unit m⁵/s². */
export function leakAirSquaredPerM(leakAreaM2: number, waterNPerM3: number): number {
  const area = ORIFICE_COEFFICIENT * leakAreaM2;
  return (2 * area * area * waterNPerM3) / AIR_KG_PER_M3;
}

/** Gas fraction by volume: α = q/(q + Q), 0 to 1. Nothing moving counts as no gas. */
export function gasFraction(airM3PerS: number, waterM3PerS: number): number {
  return airM3PerS > 0 ? airM3PerS / (airM3PerS + waterM3PerS) : 0;
}

/** Gas fraction at which the pump has lost half its head, and that beyond which it has lost its suction. */
const HALF_HEAD_GAS_FRACTION = 0.055;
export const BROKEN_SUCTION_GAS_FRACTION = 0.08;

const HALF_HEAD_GAS_RATIO_SQUARED = (HALF_HEAD_GAS_FRACTION / (1 - HALF_HEAD_GAS_FRACTION)) ** 2;

/** (x/x½)² from the square of the gas to water ratio x = q/Q = α/(1−α), x½ being that of half the head. */
export function gasLoad(gasToWaterSquared: number): number {
  return gasToWaterSquared / HALF_HEAD_GAS_RATIO_SQUARED;
}

/** The gas load beyond which the pump has lost its suction. */
export const BROKEN_SUCTION_LOAD = gasLoad(
  (BROKEN_SUCTION_GAS_FRACTION / (1 - BROKEN_SUCTION_GAS_FRACTION)) ** 2,
);

/**
 * The part of its head that a centrifugal pump keeps: 1 / (1 + (x/x½)^6), x = α/(1−α). α in [0, 1].
 * Smooth and falling: over 0.99 at 2 %, 0.65 at 5 %, under 0.1 at 8 %.
 * The range (2 % tolerated, 5 to 8 % breaks suction) is that of pump handbooks (from memory); the shape is chosen
 * here, and in x rather than α so that the operating point has one provable path (see operating-flow).
 */
export function headFactor(gasFractionValue: number): number {
  if (gasFractionValue >= 1) return 0;
  const ratio = gasFractionValue / (1 - gasFractionValue);
  return 1 / (1 + gasLoad(ratio * ratio) ** 3);
}
