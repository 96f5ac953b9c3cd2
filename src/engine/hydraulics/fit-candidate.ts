/** One candidate pool set to the baselines, and how plausible the pool then is. */
import { operatingPoint, type FlowingPoint, type Gauges, type PoolLoop } from '../../calc/circulation.ts';
import { fitToBaseline } from '../../calc/fit-baseline.ts';
import { waterWeightNPerM3 } from '../../calc/water.ts';
import type { QuestionReason, SpeedGroup } from './baseline.ts';
import { GAUGE_KEYS, gaugeSdPa, meanReadingSdPa } from './gauge-error.ts';
import { LOSS_SPREAD, type Candidate } from './prior.ts';

/** One pool that this one may be, fitted to its own draw of the gauges' errors. */
export interface Member {
  readonly loop: PoolLoop;
  readonly clean: FlowingPoint;
  readonly usualDirt: number;
  readonly wireToWater: number;
  readonly weight: number;
}

export type Fit =
  | { readonly kind: 'member'; readonly member: Member; readonly logWeight: number }
  | { readonly kind: 'refused'; readonly reason: QuestionReason };

/** A candidate's losses as heads, and the coefficients of its square losses, before it is fitted. */
interface Heads {
  readonly suctionM: number;
  readonly dischargeM: number;
  readonly flowM3PerS: number;
}

function headsOf(loop: PoolLoop, shown: Gauges, flowM3PerS: number): Heads {
  const weight = waterWeightNPerM3(loop.waterC);
  return {
    suctionM: shown.pumpVacuumPa / weight - loop.pumpAbovePoolM,
    dischargeM: shown.filterPressurePa / weight + loop.gaugeAbovePoolM,
    flowM3PerS,
  };
}

/** The baseline as this candidate's gauges would have to stand without their errors. */
function trueReadings(group: SpeedGroup | undefined, candidate: Candidate): Partial<Gauges> {
  const readings: { -readonly [K in keyof Gauges]?: number } = {};
  GAUGE_KEYS.forEach((gauge, place) => {
    const mean = group?.means[gauge];
    if (mean === undefined) return;
    const error = meanReadingSdPa(gauge, mean.valuePa, mean.count) * (candidate.gaugeScores[place] ?? 0);
    readings[gauge] = mean.valuePa + error;
  });
  return readings;
}

function driveM(loop: PoolLoop): number {
  return loop.pump.shutOffHeadM * loop.pump.speedRatio * loop.pump.speedRatio;
}

/**
 * The gauge of pressure and vacuum that was not read, such that its side keeps the candidate's own losses at the
 * flow that the other gauge implies: c Q² + k Q² = drive − head read. NaN where the pump cannot give that head.
 */
function completed(loop: PoolLoop, before: Heads, readings: Partial<Gauges>): Partial<Gauges> {
  const { filterPressurePa, pumpVacuumPa } = readings;
  if ((filterPressurePa === undefined) === (pumpVacuumPa === undefined)) return readings;
  const weight = waterWeightNPerM3(loop.waterC);
  const { curveCoefficient } = loop.pump;
  const square = (headM: number): number => headM / (before.flowM3PerS * before.flowM3PerS);
  if (filterPressurePa !== undefined) {
    const k = square(before.suctionM);
    const spareM = driveM(loop) - filterPressurePa / weight - loop.gaugeAbovePoolM;
    const suctionM = (k * spareM) / (curveCoefficient + k);
    return { ...readings, pumpVacuumPa: (suctionM + loop.pumpAbovePoolM) * weight };
  }
  const k = square(before.dischargeM);
  const spareM = driveM(loop) - (pumpVacuumPa ?? 0) / weight + loop.pumpAbovePoolM;
  const dischargeM = (k * spareM) / (curveCoefficient + k);
  return { ...readings, filterPressurePa: (dischargeM - loop.gaugeAbovePoolM) * weight };
}

function logNormal(score: number): number {
  return -0.5 * score * score;
}

/**
 * Logarithm of how much prior lies at the fitted losses. Reading a gauge puts a loss k = head/Q² where the gauge
 * says; its prior density is counted at ln k, times how fast the ln k move with the heads read (u = head to spare):
 * both read: |∂(ln ks, ln kd)/∂(hs, hd)| = 1/(hs hd) + (1/hs + 1/hd)/u; one read: 1/h + 1/u.
 */
function logPlausibility(
  candidate: Candidate,
  before: Heads,
  after: Heads,
  readings: Partial<Gauges>,
): number {
  const spareM = driveM(candidate.loop) - after.suctionM - after.dischargeM;
  const flows = 2 * Math.log(before.flowM3PerS / after.flowM3PerS);
  const moved = (to: number, from: number, spread: number): number => (Math.log(to / from) + flows) / spread;
  const suction = candidate.suctionScore + moved(after.suctionM, before.suctionM, LOSS_SPREAD.suction);
  const discharge =
    candidate.dischargeScore + moved(after.dischargeM, before.dischargeM, LOSS_SPREAD.discharge);
  const hs = 1 / after.suctionM;
  const hd = 1 / after.dischargeM;
  const vacuumRead = readings.pumpVacuumPa !== undefined;
  const pressureRead = readings.filterPressurePa !== undefined;
  if (vacuumRead && pressureRead)
    return logNormal(suction) + logNormal(discharge) + Math.log(hs * hd + (hs + hd) / spareM);
  if (vacuumRead) return logNormal(suction) + Math.log(hs + 1 / spareM);
  if (pressureRead) return logNormal(discharge) + Math.log(hd + 1 / spareM);
  return 0;
}

/** The tester's share of the suction: its odds move by the spread of hose against the rest. */
const TESTER_ODDS_SPREAD = 1.2;

function logTesterPlausibility(loop: PoolLoop, before: Gauges, after: Gauges): number {
  const liftPa = loop.pumpAbovePoolM * waterWeightNPerM3(loop.waterC);
  const logOdds = (shown: Gauges): number =>
    Math.log(shown.cleanerSuctionPa / Math.max(1, shown.pumpVacuumPa - liftPa - shown.cleanerSuctionPa));
  return logNormal((logOdds(after) - logOdds(before)) / TESTER_ODDS_SPREAD);
}

/** How well the candidate foretells baselines read at other speeds. */
function logOfOtherSpeeds(loop: PoolLoop, others: readonly SpeedGroup[]): number {
  let sum = 0;
  for (const group of others) {
    const speedRatio = group.speedRatio ?? loop.pump.speedRatio;
    const point = operatingPoint({ ...loop, pump: { ...loop.pump, speedRatio } });
    for (const gauge of GAUGE_KEYS) {
      const mean = group.means[gauge];
      if (mean === undefined) continue;
      const foretold = point.kind === 'flowing' ? Math.max(0, point[gauge]) : 0;
      sum += logNormal((mean.valuePa - foretold) / gaugeSdPa(gauge, mean.valuePa));
    }
  }
  return sum;
}

const REFUSALS: Record<string, QuestionReason> = {
  'beyond-pump': 'beyond-pump',
  'pressure-too-low': 'pressure-too-low',
  'vacuum-too-low': 'vacuum-too-low',
  'suction-too-high': 'suction-above-vacuum',
};

function refused(reason: string): Fit {
  return { kind: 'refused', reason: REFUSALS[reason] ?? 'unlike-any-pool' };
}

function atSpeedOf(group: SpeedGroup | undefined, loop: PoolLoop): PoolLoop {
  const speedRatio = group?.speedRatio;
  return speedRatio === undefined ? loop : { ...loop, pump: { ...loop.pump, speedRatio } };
}

/** The candidate fitted to the first group of baselines and weighed against the others, or why it cannot be. */
export function fitCandidate(candidate: Candidate, groups: readonly SpeedGroup[]): Fit {
  const [main, ...others] = groups;
  const loop = atSpeedOf(main, candidate.loop);
  const start = operatingPoint(loop);
  if (start.kind === 'none') return refused(start.reason);
  const before = headsOf(loop, start, start.flowM3PerS);
  const readings = trueReadings(main, candidate);
  const fitted = fitToBaseline(loop, completed(loop, before, readings));
  if (fitted.kind === 'impossible') return refused(fitted.reason);
  const clean = operatingPoint(fitted.loop);
  if (clean.kind === 'none') return refused(clean.reason);
  if (clean.vapourLimited || clean.npshMarginM < 0)
    return { kind: 'refused', reason: 'vacuum-beyond-boiling' };
  const after = headsOf(loop, clean, clean.flowM3PerS);
  const tester = readings.cleanerSuctionPa === undefined ? 0 : logTesterPlausibility(loop, start, clean);
  const logWeight =
    logPlausibility({ ...candidate, loop }, before, after, readings) +
    tester +
    logOfOtherSpeeds(fitted.loop, others);
  if (!Number.isFinite(logWeight)) return refused('unlike-any-pool');
  const { usualDirt, wireToWater } = candidate;
  return {
    kind: 'member',
    member: { loop: fitted.loop, clean, usualDirt, wireToWater, weight: 0 },
    logWeight,
  };
}
