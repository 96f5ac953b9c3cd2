/** Head lost in straight pipe and fittings. Flows m³/s, lengths and heads m. Flow is taken positive. */
import { GRAVITY } from './units.ts';

/** A run of pipe. Roughness by whichever friction formula is used. */
export interface Pipe {
  readonly lengthM: number;
  readonly diameterM: number;
}

/** Inside cross-section of a round pipe, m². */
function pipeAreaM2(diameterM: number): number {
  return (Math.PI / 4) * diameterM * diameterM;
}

/** Mean velocity, m/s, of a flow in a round pipe. Diameter above 0. */
export function velocityMPerS(flowM3PerS: number, diameterM: number): number {
  return flowM3PerS / pipeAreaM2(diameterM);
}

/** Reynolds number v D / ν. Kinematic viscosity in m²/s (water at 20 °C: about 1.0e-6). */
function reynoldsNumber(velocity: number, diameterM: number, viscosityM2PerS: number): number {
  return (velocity * diameterM) / viscosityM2PerS;
}

/**
 * Friction loss by Hazen-Williams, m: h = 10.667 L Q^1.852 / (C^1.852 D^4.8704).
 * Range: cool water, pipe over 50 mm or so, velocity up to about 3 m/s; C 150 for new plastic, 140 aged.
 * Source: the SI form in common use, as in the EPANET 2 manual, table 3.1.
 */
export function hazenWilliamsLossM(flowM3PerS: number, pipe: Pipe, roughnessC: number): number {
  return (
    (10.667 * pipe.lengthM * Math.pow(flowM3PerS / roughnessC, 1.852)) / Math.pow(pipe.diameterM, 4.8704)
  );
}

/** Below this Reynolds number pipe flow is laminar. */
const LAMINAR_REYNOLDS = 2300;

/**
 * Darcy friction factor. Laminar (Re < 2300): 64/Re. Otherwise Swamee-Jain:
 * f = 0.25 / log10(ε/(3.7 D) + 5.74/Re^0.9)².
 * Range: Re 5000 to 1e8 and ε/D 1e-6 to 1e-2 within 3 % of Colebrook; between 2300 and 5000 only indicative.
 * Source: P. K. Swamee and A. K. Jain, J. Hydraulics Division ASCE 102 (1976) 657.
 */
export function frictionFactor(reynolds: number, relativeRoughness: number): number {
  if (reynolds < LAMINAR_REYNOLDS) return 64 / reynolds;
  const log = Math.log10(relativeRoughness / 3.7 + 5.74 / Math.pow(reynolds, 0.9));
  return 0.25 / (log * log);
}

/**
 * Friction loss by Darcy-Weisbach, m: h = f (L/D) v²/2g. Roughness ε in m (plastic 1.5e-6).
 * No flow loses nothing. Source: any hydraulics handbook.
 */
export function darcyWeisbachLossM(
  flowM3PerS: number,
  pipe: Pipe,
  roughnessM: number,
  viscosityM2PerS: number,
): number {
  if (flowM3PerS === 0) return 0;
  const velocity = velocityMPerS(flowM3PerS, pipe.diameterM);
  const reynolds = reynoldsNumber(velocity, pipe.diameterM, viscosityM2PerS);
  const factor = frictionFactor(reynolds, roughnessM / pipe.diameterM);
  return (factor * pipe.lengthM * velocity * velocity) / (pipe.diameterM * 2 * GRAVITY);
}

/** The coefficient k, s²/m⁵, of a fitting with minor-loss coefficient ζ: h = k Q², k = ζ / (2 g A²). */
export function minorLossCoefficient(zeta: number, diameterM: number): number {
  const area = pipeAreaM2(diameterM);
  return zeta / (2 * GRAVITY * area * area);
}

/** Loss of a fitting, m: h = ζ v²/2g. */
export function minorLossM(flowM3PerS: number, zeta: number, diameterM: number): number {
  return minorLossCoefficient(zeta, diameterM) * flowM3PerS * flowM3PerS;
}

/**
 * The k, s²/m⁵, with which h = k Q² gives the loss of this pipe and its fittings at this very flow (above 0).
 * It turns Hazen-Williams pipes into the square losses of the circulation model: find the flow, take k at that
 * flow, and repeat; the error shrinks about tenfold a round because k changes only with Q^-0.148.
 */
export function squareLossCoefficient(
  flowM3PerS: number,
  pipe: Pipe,
  roughnessC: number,
  zeta: number,
): number {
  return (
    hazenWilliamsLossM(flowM3PerS, pipe, roughnessC) / (flowM3PerS * flowM3PerS) +
    minorLossCoefficient(zeta, pipe.diameterM)
  );
}

/** Velocities to warn at, m/s: 6 ft/s in suction pipe, 8 ft/s in return pipe (from memory, residential standard). */
export const VELOCITY_LIMIT_M_PER_S = { suction: 1.8288, return: 2.4384 } as const;
