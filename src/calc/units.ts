/**
 * Units. Everything inside padside is SI; these factors are used where a person's number comes in or goes out.
 * Source of the factors: NIST SP 811 (2008), appendix B; heads of water at about 16 °C.
 */

export const PA_PER_PSI = 6894.757;
export const PA_PER_INHG = 3386.389;
export const PA_PER_BAR = 100_000;
export const PA_PER_KPA = 1000;
export const M_PER_FT = 0.3048;
export const M3S_PER_GPM = 6.30902e-5;

/** Spans of time as the clock of the machine counts them, milliseconds. A day here is 24 hours, whatever a calendar says. */
export const MINUTE_MS = 60_000;
export const HOUR_MS = 60 * MINUTE_MS;
export const DAY_MS = 24 * HOUR_MS;

/** Weight of a cubic metre of water, N/m³, at about 16 °C (density 999 kg/m³, gravity 9.80665 m/s²). */
export const WATER_N_PER_M3 = 999 * 9.80665;

/** Units in which a pressure or a suction may be given. */
export const PRESSURE_UNITS = ['psi', 'bar', 'kPa', 'inHg', 'ft', 'm'] as const;
export type PressureUnit = (typeof PRESSURE_UNITS)[number];

const PA_PER_UNIT: Record<PressureUnit, number> = {
  psi: PA_PER_PSI,
  bar: PA_PER_BAR,
  kPa: PA_PER_KPA,
  inHg: PA_PER_INHG,
  ft: M_PER_FT * WATER_N_PER_M3,
  m: WATER_N_PER_M3,
};

/** A pressure in pascal from a value in the given unit. Any finite value. */
export function toPascal(value: number, unit: PressureUnit): number {
  return value * PA_PER_UNIT[unit];
}

/** A pressure given in pascal, in the wanted unit. Any finite value. */
export function fromPascal(pascal: number, unit: PressureUnit): number {
  return pascal / PA_PER_UNIT[unit];
}

/** Units in which a flow may be given. A US gallon is meant. */
export const FLOW_UNITS = ['gpm', 'm3/h', 'l/min'] as const;
export type FlowUnit = (typeof FLOW_UNITS)[number];

const M3S_PER_UNIT: Record<FlowUnit, number> = {
  gpm: M3S_PER_GPM,
  'm3/h': 1 / 3600,
  'l/min': 1 / 60_000,
};

/** A flow in m³/s from a value in the given unit. Any finite value. */
export function toM3PerS(value: number, unit: FlowUnit): number {
  return value * M3S_PER_UNIT[unit];
}

/** A flow given in m³/s, in the wanted unit. Any finite value. */
export function fromM3PerS(flowM3PerS: number, unit: FlowUnit): number {
  return flowM3PerS / M3S_PER_UNIT[unit];
}

/** Mechanical horsepower (550 ft·lbf/s), the one on a pump's plate. */
export const W_PER_HP = 745.6999;
export const M3_PER_US_GAL = 3.785412e-3;
export const M2_PER_FT2 = 0.09290304;
export const M_PER_IN = 0.0254;

/** Standard gravity, m/s². */
export const GRAVITY = 9.80665;
/** Standard atmosphere, Pa. */
export const ATMOSPHERE_PA = 101_325;
