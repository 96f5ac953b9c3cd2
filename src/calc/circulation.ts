/**
 * The circulation model of one pool: pool → two suction branches → common suction → pump → filter → return → pool.
 * Every loss coefficient k is in s²/m⁵ (h = k Q², h in m, Q in m³/s), finite and 0 or above unless said otherwise.
 */
import { BROKEN_SUCTION_GAS_FRACTION, gasFraction, leakAirM3PerS, leakAirSquaredPerM } from './air-leak.ts';
import { filterLossM, type FilterLoss } from './filter-loss.ts';
import { npshAvailableM, npshRequiredM, vapourLimitPa } from './npsh.ts';
import { sustainedFlow, type ReducedLoop } from './operating-flow.ts';
import type { PumpCurve } from './pump-curve.ts';
import { waterWeightNPerM3 } from './water.ts';

interface LoopPump extends PumpCurve {
  /** Speed over full speed, 0 (stopped) to about 1.2. */
  readonly speedRatio: number;
  /** 1 = clean, falling towards 0 as the impeller clogs. */
  readonly impellerFactor: number;
}

interface CleanerBranch {
  /** Cleaner, hose and canister: everything upstream of the tester. Above 0; Infinity = nothing passes here. */
  readonly hoseLoss: number;
  /** From the tester to where the branches meet, its valve open. */
  readonly lineLoss: number;
  /** Valve opening, 0 closed to 1 open; the line's loss is divided by its square. */
  readonly opening: number;
  /** Water that enters beside the cleaner (split hose, loose plate, hose off): Q = this × √h. 0 = none. m^2.5/s. */
  readonly bypassConductance: number;
}

interface OtherBranch {
  /** Above 0. */
  readonly loss: number;
  /** Valve opening, 0 closed to 1 open; the loss is divided by its square. */
  readonly opening: number;
}

export interface PoolLoop {
  readonly pump: LoopPump;
  readonly cleaner: CleanerBranch;
  /** Skimmer and drain, or the drain alone for a cleaner in the skimmer. */
  readonly other: OtherBranch;
  /** Common line, strainer basket, pump inlet. */
  readonly commonLoss: number;
  /** Filter loss downstream of the pressure gauge. */
  readonly filter: FilterLoss;
  readonly returnLoss: number;
  /** Opening that draws air at the pump's suction, m². */
  readonly leakAreaM2: number;
  readonly gaugeAbovePoolM: number;
  /** Negative when the pump stands below the water. */
  readonly pumpAbovePoolM: number;
  /** 0 to 45. */
  readonly waterC: number;
  /** Outside air pressure; lower in the mountains. */
  readonly atmospherePa: number;
}

/** What the three gauges show. Vacuum and suction count positive below outside pressure. */
export interface Gauges {
  readonly filterPressurePa: number;
  readonly pumpVacuumPa: number;
  readonly cleanerSuctionPa: number;
}

export interface FlowingPoint extends Gauges {
  readonly kind: 'flowing';
  readonly flowM3PerS: number;
  /** Water through the cleaner itself, without what enters beside it. */
  readonly cleanerFlowM3PerS: number;
  readonly otherFlowM3PerS: number;
  /** Gas by volume in what the pump takes in, 0 to 0.08. */
  readonly airFraction: number;
  /** Head that the pump gives: all losses, the loop starting and ending in the pool. */
  readonly totalDynamicHeadM: number;
  /** NPSH available less required: below 0 the pump cavitates. */
  readonly npshMarginM: number;
  /** The water boils at the inlet and that sets the flow; the pump gives less than its curve. */
  readonly vapourLimited: boolean;
}

/** Why no water moves. */
export type NoFlowReason = 'pump-stopped' | 'suction-closed' | 'lift-too-high' | 'no-prime';

export type OperatingPoint = FlowingPoint | { readonly kind: 'none'; readonly reason: NoFlowReason };

/** A suction loss, s²/m⁵, that lets through less than a drop an hour: closed, however small the opening written. */
const CLOSED_LOSS = 1e24;

/**
 * Where pump and pipework agree. Closed form without air; Newton on a convex function with air (operating-flow).
 * Never throws and always ends; `none` where nothing flows: no pump speed, every suction closed, the pump higher
 * above the pool than water can be drawn, or so much air (8 % by volume) that the pump lets go of its prime.
 */
export function operatingPoint(loop: PoolLoop): OperatingPoint {
  if (!(loop.pump.speedRatio > 0 && loop.pump.impellerFactor > 0)) return none('pump-stopped');
  const suction = suctionOf(loop);
  if (!(suction.loss < CLOSED_LOSS)) return none('suction-closed');
  const reduced = reduce(loop, suction.loss);
  if (reduced.liftM >= reduced.vacuumLimitM) return none('lift-too-high');
  const flow = sustainedFlow(reduced);
  return flow === undefined ? none('no-prime') : pointAt(loop, suction, reduced, flow);
}

/** What the gauges show with the pump stopped and the water at rest. A pressure gauge stops at zero. */
export function restingGauges(loop: PoolLoop): Gauges {
  const weight = waterWeightNPerM3(loop.waterC);
  return {
    filterPressurePa: Math.max(0, -loop.gaugeAbovePoolM * weight),
    pumpVacuumPa: loop.pumpAbovePoolM * weight,
    cleanerSuctionPa: 0,
  };
}

function none(reason: NoFlowReason): OperatingPoint {
  return { kind: 'none', reason };
}

/** The suction side as conductances (Q = Y √h, m^2.5/s) and one loss coefficient. */
interface Suction {
  readonly hose: number;
  readonly upstreamOfTester: number;
  readonly cleanerBranch: number;
  readonly conductance: number;
  readonly loss: number;
}

function suctionOf(loop: PoolLoop): Suction {
  const { cleaner, other } = loop;
  const hose = 1 / Math.sqrt(cleaner.hoseLoss);
  const upstreamOfTester = hose + cleaner.bypassConductance;
  const line = cleaner.lineLoss / (cleaner.opening * cleaner.opening);
  const cleanerBranch =
    cleaner.opening > 0 ? 1 / Math.sqrt(1 / (upstreamOfTester * upstreamOfTester) + line) : 0;
  const conductance = cleanerBranch + other.opening / Math.sqrt(other.loss);
  const loss = 1 / (conductance * conductance) + loop.commonLoss;
  return { hose, upstreamOfTester, cleanerBranch, conductance, loss };
}

function reduce(loop: PoolLoop, suctionLoss: number): ReducedLoop {
  const { pump } = loop;
  const weight = waterWeightNPerM3(loop.waterC);
  return {
    driveM: pump.speedRatio * pump.speedRatio * pump.shutOffHeadM,
    pumpSquare: pump.curveCoefficient / (pump.impellerFactor * pump.impellerFactor),
    linear: loop.filter.linear,
    lossSquare: loop.filter.square + loop.returnLoss + suctionLoss,
    suctionSquare: suctionLoss,
    liftM: loop.pumpAbovePoolM,
    airSquaredPerM: leakAirSquaredPerM(loop.leakAreaM2, weight),
    vacuumLimitM: vapourLimitPa(loop.waterC, loop.atmospherePa) / weight,
  };
}

/** With the hose shut tight nothing moves past the tester, and it feels all the suction where the branches meet. */
function testerHeadM(loop: PoolLoop, suction: Suction, flow: number, branchFlow: number): number {
  if (suction.upstreamOfTester > 0) return (branchFlow / suction.upstreamOfTester) ** 2;
  return loop.cleaner.opening > 0 ? (flow / suction.conductance) ** 2 : 0;
}

function pointAt(loop: PoolLoop, suction: Suction, reduced: ReducedLoop, flow: number): OperatingPoint {
  const weight = waterWeightNPerM3(loop.waterC);
  const suctionHeadM = suction.loss * flow * flow;
  const dischargeHeadM = filterLossM(loop.filter, flow) + loop.returnLoss * flow * flow;
  const pumpVacuumPa = (suctionHeadM + loop.pumpAbovePoolM) * weight;
  const airFraction = gasFraction(leakAirM3PerS(loop.leakAreaM2, pumpVacuumPa), flow);
  if (airFraction > BROKEN_SUCTION_GAS_FRACTION) return none('no-prime');
  const branchFlow = (flow * suction.cleanerBranch) / suction.conductance;
  return {
    kind: 'flowing',
    flowM3PerS: flow,
    cleanerFlowM3PerS: suction.hose > 0 ? (branchFlow * suction.hose) / suction.upstreamOfTester : 0,
    otherFlowM3PerS: flow - branchFlow,
    filterPressurePa: (dischargeHeadM - loop.gaugeAbovePoolM) * weight,
    pumpVacuumPa,
    cleanerSuctionPa: testerHeadM(loop, suction, flow, branchFlow) * weight,
    airFraction,
    totalDynamicHeadM: suctionHeadM + dischargeHeadM,
    npshMarginM:
      npshAvailableM(pumpVacuumPa, loop.waterC, loop.atmospherePa) -
      npshRequiredM(flow, loop.pump.speedRatio),
    vapourLimited: suctionHeadM + reduced.liftM >= reduced.vacuumLimitM * (1 - 1e-12),
  };
}
