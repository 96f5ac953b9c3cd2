/** The head a pump gives. Flows m³/s, heads m. */
import { M3S_PER_GPM, W_PER_HP } from './units.ts';

/** H = H0 − c Q² at full speed with a clean impeller. H0 in m, c in s²/m⁵, both above 0. */
export interface PumpCurve {
  readonly shutOffHeadM: number;
  readonly curveCoefficient: number;
}

/** One (flow, head) point of a printed pump curve. */
export interface CurvePoint {
  readonly flowM3PerS: number;
  readonly headM: number;
}

/**
 * Head at a flow: H = s² H0 − c (Q/r)². Speed ratio s from 0; impeller factor r in (0, 1], 1 = clean.
 * Negative beyond the flow the pump can give.
 */
export function pumpHeadM(curve: PumpCurve, flowM3PerS: number, speedRatio = 1, impellerFactor = 1): number {
  const through = flowM3PerS / impellerFactor;
  return speedRatio * speedRatio * curve.shutOffHeadM - curve.curveCoefficient * through * through;
}

export type FittedCurve =
  | { readonly kind: 'curve'; readonly curve: PumpCurve; readonly worstResidualM: number }
  | { readonly kind: 'unusable'; readonly reason: 'too-few-points' | 'head-does-not-fall' };

/**
 * The curve H0 − c Q² nearest to the printed points by least squares of head over Q².
 * Needs two or more different flows (0 or above) whose heads fall; else says why it cannot.
 */
export function fitPumpCurve(points: readonly CurvePoint[]): FittedCurve {
  const squares = points.map((point) => point.flowM3PerS * point.flowM3PerS);
  const meanSquare = mean(squares);
  const meanHead = mean(points.map((point) => point.headM));
  let spread = 0;
  let together = 0;
  for (const point of points) {
    const offset = point.flowM3PerS * point.flowM3PerS - meanSquare;
    spread += offset * offset;
    together += offset * (point.headM - meanHead);
  }
  if (new Set(squares).size < 2) return { kind: 'unusable', reason: 'too-few-points' };
  const curveCoefficient = -together / spread;
  const curve = { shutOffHeadM: meanHead + curveCoefficient * meanSquare, curveCoefficient };
  if (!(curveCoefficient > 0 && curve.shutOffHeadM > 0))
    return { kind: 'unusable', reason: 'head-does-not-fall' };
  const residuals = points.map((point) => Math.abs(pumpHeadM(curve, point.flowM3PerS) - point.headM));
  return { kind: 'curve', curve, worstResidualM: Math.max(...residuals) };
}

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

/** Invented: the generic 1 hp pump stops delivering at 20 m of head or at 100 gpm. */
const ONE_HP_SHUT_OFF_HEAD_M = 20;
const ONE_HP_LARGEST_FLOW_M3_PER_S = 100 * M3S_PER_GPM;

/**
 * A generic pool pump of a rated power, W (range 300 to 2300, about 0.4 to 3 hp), where no curve is known.
 * Invented, no source: head grows with P^0.3 and flow with P^0.4 from the 1 hp pump, whose best hydraulic output
 * is then about two thirds of its rated power.
 */
export function genericPumpCurve(ratedPowerW: number): PumpCurve {
  const horsepower = ratedPowerW / W_PER_HP;
  const shutOffHeadM = ONE_HP_SHUT_OFF_HEAD_M * Math.pow(horsepower, 0.3);
  const largestFlow = ONE_HP_LARGEST_FLOW_M3_PER_S * Math.pow(horsepower, 0.4);
  return { shutOffHeadM, curveCoefficient: shutOffHeadM / (largestFlow * largestFlow) };
}

/** A duty of a pump: what it moves, against what, for how much shaft power. */
export interface PumpDuty {
  readonly flowM3PerS: number;
  readonly headM: number;
  readonly powerW: number;
}

/** The same duty at another speed by the affinity laws: flow ∝ s, head ∝ s², power ∝ s³. Speed ratio from 0. */
export function dutyAtSpeed(duty: PumpDuty, speedRatio: number): PumpDuty {
  const square = speedRatio * speedRatio;
  return {
    flowM3PerS: duty.flowM3PerS * speedRatio,
    headM: duty.headM * square,
    powerW: duty.powerW * square * speedRatio,
  };
}
