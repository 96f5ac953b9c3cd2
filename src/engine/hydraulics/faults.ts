/** Each effect of a fault as a move of the loop's parameters over a severity from just noticeable to severe. */
import { operatingPoint, type PoolLoop } from '../../calc/circulation.ts';
import { filterLossM } from '../../calc/filter-loss.ts';
import type { Effect } from '../../knowledge/schema.ts';

interface Move {
  /** Amount at severity 0 and at severity 1; between them it grows by equal ratios. */
  readonly from: number;
  readonly to: number;
  readonly apply: (loop: PoolLoop, amount: number) => PoolLoop;
}

const MM2 = 1e-6;

/** Nothing that the circulation's gauges could show. */
const STILL: Move = { from: 1, to: 1, apply: (loop) => loop };

/** Amounts are invented within what the trade meets (common practice, no source); each says what it is an amount of. */
const MOVES: Record<Effect, Move> = {
  none: STILL,
  'gauge-stuck': STILL,
  'cleaner-pressure-low': STILL,
  'cleaner-pressure-off': STILL,
  /** Hose and cleaner loss, times: a leaf that costs a fifth of the cleaner's flow, to a throat that is shut. */
  'cleaner-branch-blocked': { from: 1.6, to: 60, apply: blockHose },
  /** Valve opening left. The valve's line is short, so little happens above a half. */
  'cleaner-branch-closed': { from: 0.45, to: 0.06, apply: closeBranch },
  /** Water beside the cleaner over water through it: a plate that rattles, to one that hangs loose. */
  'cleaner-branch-bypassed': { from: 0.35, to: 4, apply: bypassBranch },
  /** Loss added to the common line over the whole suction loss: a third-full basket to a packed one. */
  'suction-blocked': { from: 0.2, to: 8, apply: blockSuction },
  /** Hole, mm²: a dry O-ring to a lid off its seat. Over some 1 to 3 mm² a middling pump loses its prime. */
  'air-at-pump': {
    from: 0.3,
    to: 3,
    apply: (loop, mm2) => ({ ...loop, leakAreaM2: loop.leakAreaM2 + mm2 * MM2 }),
  },
  /** Water beside the cleaner over water through it, and with it some air: most of the hose lies under water. */
  'air-in-hose': { from: 0.2, to: 1.5, apply: splitHose },
  /** Impeller factor: some grass in a vane to most vanes full. */
  'pump-curve-shrinks': { from: 0.9, to: 0.35, apply: clogImpeller },
  /** Speed over usual speed. */
  'pump-speed-low': { from: 0.9, to: 0.4, apply: slowPump },
  /** Speed over usual speed: worn bearings screech long before they slow the motor. */
  'pump-speed-sags': { from: 1, to: 0.7, apply: slowPump },
  'no-flow': { from: 1, to: 1, apply: (loop) => slowPump(loop, 0) },
  /** Head of dirt over the clean discharge head, at the clean flow: some 2 psi to a filter that lets little through. */
  'filter-blocked': { from: 0.2, to: 6, apply: blockFilter },
  /** Media resistance left: one torn element of many, to no media at all. */
  'filter-torn': { from: 0.5, to: 0.03, apply: tearFilter },
  /** Loss added to the return over the whole clean discharge loss: a valve a third shut to nearly closed. */
  'return-blocked': { from: 0.2, to: 12, apply: blockReturn },
};

function blockHose(loop: PoolLoop, times: number): PoolLoop {
  return { ...loop, cleaner: { ...loop.cleaner, hoseLoss: loop.cleaner.hoseLoss * times } };
}

function closeBranch(loop: PoolLoop, opening: number): PoolLoop {
  return { ...loop, cleaner: { ...loop.cleaner, opening: loop.cleaner.opening * opening } };
}

/** A loose plate lets water in beside the hose, an open skimmer valve beside the branch; the gauges see one sum. */
function bypassBranch(loop: PoolLoop, share: number): PoolLoop {
  const { cleaner, other } = loop;
  const beside = cleaner.bypassConductance + share / Math.sqrt(cleaner.hoseLoss);
  return {
    ...loop,
    cleaner: { ...cleaner, bypassConductance: beside },
    other: { ...other, loss: other.loss / (1 + share / 2) ** 2 },
  };
}

function splitHose(loop: PoolLoop, share: number): PoolLoop {
  const { cleaner } = loop;
  const beside = cleaner.bypassConductance + share / Math.sqrt(cleaner.hoseLoss);
  return {
    ...loop,
    cleaner: { ...cleaner, bypassConductance: beside },
    leakAreaM2: loop.leakAreaM2 + 0.8 * share * MM2,
  };
}

function clogImpeller(loop: PoolLoop, factor: number): PoolLoop {
  return { ...loop, pump: { ...loop.pump, impellerFactor: loop.pump.impellerFactor * factor } };
}

function slowPump(loop: PoolLoop, ratio: number): PoolLoop {
  return { ...loop, pump: { ...loop.pump, speedRatio: loop.pump.speedRatio * ratio } };
}

/** Loss coefficient of all that lies before the pump. */
function suctionLoss(loop: PoolLoop): number {
  const { cleaner, other } = loop;
  const upstream = 1 / Math.sqrt(cleaner.hoseLoss) + cleaner.bypassConductance;
  const branch =
    cleaner.opening > 0
      ? 1 / Math.sqrt(1 / (upstream * upstream) + cleaner.lineLoss / cleaner.opening ** 2)
      : 0;
  const together = branch + other.opening / Math.sqrt(other.loss);
  return 1 / (together * together) + loop.commonLoss;
}

function blockSuction(loop: PoolLoop, share: number): PoolLoop {
  const added = share * suctionLoss(loop);
  return Number.isFinite(added) ? { ...loop, commonLoss: loop.commonLoss + added } : loop;
}

/** Flow and discharge head of the loop as it is; undefined where nothing flows and dirt can change nothing. */
function discharge(loop: PoolLoop): { flow: number; headM: number } | undefined {
  const point = operatingPoint(loop);
  if (point.kind === 'none') return undefined;
  const flow = point.flowM3PerS;
  return { flow, headM: filterLossM(loop.filter, flow) + loop.returnLoss * flow * flow };
}

function blockFilter(loop: PoolLoop, share: number): PoolLoop {
  const now = discharge(loop);
  if (!now) return loop;
  const linear = loop.filter.linear + (share * now.headM) / now.flow;
  return { ...loop, filter: { ...loop.filter, linear } };
}

function blockReturn(loop: PoolLoop, share: number): PoolLoop {
  const now = discharge(loop);
  if (!now) return loop;
  return { ...loop, returnLoss: loop.returnLoss + (share * now.headM) / now.flow ** 2 };
}

/** A hole in the media opens the ports behind it only a little: laterals and grids are part of their loss. */
function tearFilter(loop: PoolLoop, left: number): PoolLoop {
  const { linear, square } = loop.filter;
  return { ...loop, filter: { linear: linear * left, square: square * (0.5 + 0.5 * left) } };
}

/** Effects that leave every gauge of the circulation as it was, apart from a gauge that is itself at fault. */
export function movesNothing(effect: Effect): boolean {
  return MOVES[effect] === STILL;
}

/**
 * The loop with a fault of this effect at a severity: 0 just noticeable, 1 severe; outside of that it is clipped and
 * not-a-number counts as 0. Never throws. Gauge faults and those of a pressure cleaner leave the loop as it is.
 */
export function loopUnderFault(loop: PoolLoop, effect: Effect, severity: number): PoolLoop {
  const { from, to, apply } = MOVES[effect];
  const share = Number.isNaN(severity) ? 0 : Math.min(1, Math.max(0, severity));
  return apply(loop, from * Math.pow(to / from, share));
}
