/** The flow at which pump and pipework agree, with air in the water and boiling at the inlet. */
import { BROKEN_SUCTION_LOAD, gasLoad } from './air-leak.ts';

/**
 * One loop reduced to numbers, all heads m, flows m³/s:
 * f(x) (drive − pumpSquare Q²) = linear Q + lossSquare Q², where f is the head kept with air and
 * x² = airSquaredPerM (lift + suctionSquare Q²)/Q² is the squared gas to water ratio.
 */
export interface ReducedLoop {
  /** s² H0, above 0. */
  readonly driveM: number;
  /** c/r². */
  readonly pumpSquare: number;
  readonly linear: number;
  /** All square losses, suction and discharge. */
  readonly lossSquare: number;
  readonly suctionSquare: number;
  /** Height of the pump above the pool; negative when it is flooded. */
  readonly liftM: number;
  readonly airSquaredPerM: number;
  /** The suction loss plus lift can never be more than this. */
  readonly vacuumLimitM: number;
}

/** The flow without air and without boiling: the positive root of a quadratic, in a form that never cancels. */
function airlessFlow(loop: ReducedLoop): number {
  const square = loop.lossSquare + loop.pumpSquare;
  const root = Math.sqrt(loop.linear * loop.linear + 4 * square * loop.driveM);
  return (2 * loop.driveM) / (loop.linear + root);
}

/** The flow at which the suction side reaches the vapour limit; infinite when it loses nothing. */
function boilingFlow(loop: ReducedLoop): number {
  return Math.sqrt(Math.max(0, loop.vacuumLimitM - loop.liftM) / loop.suctionSquare);
}

const MOST_STEPS = 200;
const CLOSE_ENOUGH = 1e-14;

/**
 * The largest flow that the pump can keep up, or undefined where air takes its prime. The gas load at the flow found
 * may still be beyond what a pump stands; the caller judges.
 *
 * With w = 1/Q² the balance is ψ(w) = (1 + (x/x½)^6) − (drive w − pumpSquare)/(linear √w + lossSquare) = 0.
 * x² is linear in w, so its (clipped) third power is convex; the fraction is concave in w for all losses ≥ 0.
 * So ψ is convex, and at the airless flow ψ ≥ 0. Newton's method on a convex function, started left of its first
 * root, climbs to that root without passing it: no bracket is needed, and no other root (the one at which the pump
 * is about to lose its prime) can be found instead. A slope that is no longer negative proves that no root exists.
 * Unless the pump is flooded the load only grows as the flow falls, so one that is too large at the start ends it.
 * The vapour limit only moves the start: where ψ is already ≤ 0 there, boiling sets the flow.
 */
export function sustainedFlow(loop: ReducedLoop): number | undefined {
  const start = Math.min(airlessFlow(loop), boilingFlow(loop));
  if (!(start > 0)) return undefined;
  if (loop.airSquaredPerM === 0) return start;
  let w = 1 / (start * start);
  if (loop.liftM >= 0 && loadAt(loop, w) > BROKEN_SUCTION_LOAD) return undefined;
  for (let step = 0; step < MOST_STEPS; step += 1) {
    const { value, slope } = imbalance(loop, w);
    if (value <= 0) break;
    if (slope >= 0) return undefined;
    const next = w - value / slope;
    if (next - w <= CLOSE_ENOUGH * w) break;
    w = next;
  }
  return 1 / Math.sqrt(w);
}

/** (x/x½)² at w = 1/Q². A flooded pump under no vacuum draws no air. */
function loadAt(loop: ReducedLoop, w: number): number {
  return gasLoad(loop.airSquaredPerM * Math.max(0, loop.liftM * w + loop.suctionSquare));
}

/** ψ(w) and its derivative. */
function imbalance(loop: ReducedLoop, w: number): { value: number; slope: number } {
  const load = loadAt(loop, w);
  const loadSlope = gasLoad(loop.airSquaredPerM * loop.liftM);
  const square = load * load;
  const root = Math.sqrt(w);
  const losses = loop.linear * root + loop.lossSquare;
  const supply = loop.driveM * w - loop.pumpSquare;
  const supplySlope = (loop.driveM * losses - (supply * loop.linear) / (2 * root)) / (losses * losses);
  return { value: 1 + square * load - supply / losses, slope: 3 * square * loadSlope - supplySlope };
}
