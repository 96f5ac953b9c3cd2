/** A run of plastic pool pipe by its trade size, with its fittings. */
import { hazenWilliamsLossM, velocityMPerS } from './pipe-friction.ts';
import { M_PER_IN } from './units.ts';

/** Nominal size and inside diameter, in: schedule 40 plastic pipe (ASTM D1785, from memory). */
const SCHEDULE_40: readonly (readonly [number, number])[] = [
  [0.75, 0.824],
  [1, 1.049],
  [1.25, 1.38],
  [1.5, 1.61],
  [2, 2.067],
  [2.5, 2.469],
  [3, 3.068],
  [4, 4.026],
  [6, 6.065],
];

/** Outside and inside diameter, mm: metric plastic pipe for 10 bar (EN ISO 1452, from memory). */
const METRIC: readonly (readonly [number, number])[] = [
  [50, 45.2],
  [63, 57],
  [75, 67.8],
  [90, 81.4],
  [110, 101.6],
];

const SIZES: readonly (readonly [nominalM: number, insideM: number])[] = [
  ...SCHEDULE_40.map(([nominal, inside]) => [nominal * M_PER_IN, inside * M_PER_IN] as const),
  ...METRIC.map(([outside, inside]) => [outside / 1000, inside / 1000] as const),
];

/** How near a size must be to a trade size to mean it, m: 63 mm is no 2½ in. */
const SAME_SIZE_M = 2e-4;

export interface PipeBore {
  readonly insideM: number;
  /** It is no trade size, so the size itself was taken as the inside diameter. */
  readonly taken: boolean;
}

/** Inside diameter of pipe sold under a size in m: schedule 40 for inches, 10 bar for millimetres. Above 0. */
export function pipeBore(sizeM: number): PipeBore {
  const known = SIZES.find(([nominalM]) => Math.abs(nominalM - sizeM) < SAME_SIZE_M);
  return known === undefined ? { insideM: sizeM, taken: true } : { insideM: known[1], taken: false };
}

/** Diameters of straight pipe that one 90° elbow is worth. Source: Crane TP-410, standard elbow (from memory). */
export const ELBOW_DIAMETERS = 30;

/** Smooth new plastic. Source: any hydraulics handbook. */
const PLASTIC_C = 150;

export interface RunLoss {
  readonly headM: number;
  readonly velocityMPerS: number;
}

/**
 * Head lost in straight plastic pipe and its fittings, each worth a 90° elbow, by Hazen-Williams with C 150.
 * Flow m³/s, length and inside diameter m, all above 0; elbows from 0.
 */
export function runLoss(flowM3PerS: number, lengthM: number, insideM: number, elbows: number): RunLoss {
  const pipe = { lengthM: lengthM + elbows * ELBOW_DIAMETERS * insideM, diameterM: insideM };
  return {
    headM: hazenWilliamsLossM(flowM3PerS, pipe, PLASTIC_C),
    velocityMPerS: velocityMPerS(flowM3PerS, insideM),
  };
}

/** Flow, m³/s, of water at a velocity in m/s through an inside diameter in m. */
export function flowAtVelocityM3PerS(velocity: number, insideM: number): number {
  return velocity / velocityMPerS(1, insideM);
}
