/** Net positive suction head: how far the pump inlet is from boiling the water. Heads m, pressures Pa. */
import { vapourPressurePa, waterWeightNPerM3 } from './water.ts';

/** The largest vacuum, Pa, that water of this temperature can stand before it boils: p_atm − p_v. */
export function vapourLimitPa(waterC: number, atmospherePa: number): number {
  return atmospherePa - vapourPressurePa(waterC);
}

/**
 * NPSH available, m, at a pump inlet under this vacuum: (p_atm − p_v − vacuum)/(ρ g).
 * The velocity head is left out (0.1 to 0.3 m in pool pipe). Example: no vacuum, 20 °C, sea level → 10.1.
 */
export function npshAvailableM(vacuumPa: number, waterC: number, atmospherePa: number): number {
  return (vapourLimitPa(waterC, atmospherePa) - vacuumPa) / waterWeightNPerM3(waterC);
}

/** Full speed of a two-pole motor on 60 Hz, turns a minute (common practice). */
const FULL_SPEED_RPM = 3450;

/** Suction specific speed, rpm·√(m³/s)/m^0.75: 8500 in US units, an ordinary impeller (from memory; 7000 to 10 000). */
const SUCTION_SPECIFIC_SPEED = 8500 / 51.65;

/**
 * NPSH required, m, by a generic pump: (N √Q / S)^(4/3). Flow m³/s from 0, speed ratio from 0.
 * Source: the definition of suction specific speed in pump handbooks. Example: 60 gpm at full speed → 1.4.
 */
export function npshRequiredM(flowM3PerS: number, speedRatio: number): number {
  const loading = (FULL_SPEED_RPM * speedRatio * Math.sqrt(flowM3PerS)) / SUCTION_SPECIFIC_SPEED;
  return Math.pow(loading, 4 / 3);
}
