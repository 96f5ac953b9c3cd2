/** What a pool's loop may be before any of its gauges was read. Spreads invented within common practice, no source. */
import type { PoolLoop } from '../../calc/circulation.ts';
import type { FilterType } from '../../calc/filter-loss.ts';
import { genericPumpCurve, type PumpCurve } from '../../calc/pump-curve.ts';
import { typicalLoop } from '../../calc/typical-loop.ts';
import type { Equipment } from '../../knowledge/schema.ts';
import { even, lognormal, score } from './candidate-scores.ts';

/** Facts of a pool beyond its equipment, where they are known. */
export interface KnownFacts {
  /** On the pump's plate, W. */
  readonly ratedPowerW?: number;
  /** The pump's own curve at full speed; it stands above the rated power. */
  readonly pumpCurve?: PumpCurve;
  readonly filterAreaM2?: number;
  /** Speed over full speed of readings that name none. */
  readonly speedRatio?: number;
  /** Negative where the pump stands below the water. */
  readonly pumpAbovePoolM?: number;
  readonly gaugeAbovePoolM?: number;
}

/** One candidate before it is fitted, with the normal scores of the errors that its baseline had. */
export interface Candidate {
  readonly loop: PoolLoop;
  /** Normal scores of the whole suction and discharge loss against a typical pool. */
  readonly suctionScore: number;
  readonly dischargeScore: number;
  readonly gaugeScores: readonly [pressure: number, vacuum: number, suction: number];
  /** Media resistance on an ordinary day over that of the clean filter. */
  readonly usualDirt: number;
  /** Power in the water over power from the supply. */
  readonly wireToWater: number;
}

/** Standard deviation of the logarithm of each unknown; heights in m. */
const SPREAD = {
  ratedPower: 0.58,
  /** Pumps of one rated power differ. */
  shutOffHead: 0.2,
  largestFlow: 0.26,
  /** A curve put through printed points is off by its shape and by the pump's age. */
  knownHead: 0.02,
  knownFlow: 0.04,
  hose: 0.45,
  line: 0.5,
  other: 0.7,
  common: 0.6,
  media: 0.5,
  mediaOfKnownArea: 0.35,
  pumpHeightM: 0.45,
  gaugeHeightM: 0.35,
} as const;
/** Standard deviation of the logarithm of all suction and all discharge loss: short fat pipes to long thin ones. */
export const LOSS_SPREAD = { suction: 0.8, discharge: 0.8 } as const;

const USUAL_POWER_W = 1000;
const USUAL_GAUGE_HEIGHT_M = 0.8;
const USUAL_PUMP_HEIGHT_M = 0.35;

function pumpOf(known: KnownFacts, index: number): PumpCurve {
  const curve = known.pumpCurve;
  if (curve) return pumpNear(curve, SPREAD.knownHead, SPREAD.knownFlow, index);
  const power = known.ratedPowerW ?? USUAL_POWER_W * lognormal(index, 'power', SPREAD.ratedPower);
  return pumpNear(genericPumpCurve(power), SPREAD.shutOffHead, SPREAD.largestFlow, index);
}

function pumpNear(usual: PumpCurve, headSpread: number, flowSpread: number, index: number): PumpCurve {
  const shutOffHeadM = usual.shutOffHeadM * lognormal(index, 'shutOff', headSpread);
  const widening = lognormal(index, 'largest', flowSpread);
  const largestSquared = (usual.shutOffHeadM / usual.curveCoefficient) * widening * widening;
  return { shutOffHeadM, curveCoefficient: shutOffHeadM / largestSquared };
}

/** A variable-speed pump may have been read at any of its ordinary speeds; the others at full speed. */
function speedOf(equipment: Equipment, known: KnownFacts, index: number): number {
  if (known.speedRatio !== undefined) return known.speedRatio;
  return equipment.pump === 'variable-speed' ? 0.6 + 0.4 * even(index, 'speed') : 1;
}

/** Shares of filters where the type is not known. */
function filterOf(equipment: Equipment, index: number): FilterType {
  if (equipment.filter) return equipment.filter;
  const at = even(index, 'filterType');
  return at < 0.45 ? 'sand' : at < 0.8 ? 'cartridge' : 'de';
}

/** Without a suction cleaner the branch is an open skimmer and its pipe. */
function hoseShare(equipment: Equipment): number {
  return equipment.cleaner === undefined || equipment.cleaner === 'suction' ? 1 : 0.25;
}

/** With the cleaner in the skimmer only the drain is left beside it; without one both are open. */
function otherShare(equipment: Equipment): number {
  if (hoseShare(equipment) < 1) return 0.3;
  return equipment.connection === 'skimmer' ? 1.5 : 1;
}

function spreadSuction(loop: PoolLoop, equipment: Equipment, index: number): PoolLoop {
  const all = lognormal(index, 'suction', LOSS_SPREAD.suction);
  const { cleaner, other } = loop;
  const hose = hoseShare(equipment) * lognormal(index, 'hose', SPREAD.hose);
  const line = lognormal(index, 'line', SPREAD.line);
  const beside = otherShare(equipment) * lognormal(index, 'other', SPREAD.other);
  return {
    ...loop,
    cleaner: {
      ...cleaner,
      hoseLoss: cleaner.hoseLoss * all * hose,
      lineLoss: cleaner.lineLoss * all * line,
    },
    other: { ...other, loss: other.loss * all * beside },
    commonLoss: loop.commonLoss * all * lognormal(index, 'common', SPREAD.common),
  };
}

function spreadDischarge(loop: PoolLoop, known: KnownFacts, index: number): PoolLoop {
  const all = lognormal(index, 'discharge', LOSS_SPREAD.discharge);
  const spread = known.filterAreaM2 === undefined ? SPREAD.media : SPREAD.mediaOfKnownArea;
  const media = lognormal(index, 'media', spread);
  const { linear, square } = loop.filter;
  return {
    ...loop,
    filter: { linear: linear * all * media, square: square * all },
    returnLoss: loop.returnLoss * all,
  };
}

function heightsOf(known: KnownFacts, index: number): { pumpAbovePoolM: number; gaugeAbovePoolM: number } {
  const pumpM = USUAL_PUMP_HEIGHT_M + SPREAD.pumpHeightM * score(index, 'pumpHeight');
  const gaugeM = USUAL_GAUGE_HEIGHT_M + SPREAD.gaugeHeightM * score(index, 'gaugeHeight');
  return {
    pumpAbovePoolM: known.pumpAbovePoolM ?? Math.min(1.8, Math.max(-1.2, pumpM)),
    gaugeAbovePoolM: known.gaugeAbovePoolM ?? Math.min(2, Math.max(-0.5, gaugeM)),
  };
}

function loopOf(equipment: Equipment, known: KnownFacts, index: number): PoolLoop {
  const usual = typicalLoop({
    pumpCurve: pumpOf(known, index),
    speedRatio: speedOf(equipment, known, index),
    filterType: filterOf(equipment, index),
    ...(known.filterAreaM2 === undefined ? {} : { filterAreaM2: known.filterAreaM2 }),
  });
  const warm = { waterC: 18 + 14 * even(index, 'warmth'), ...heightsOf(known, index) };
  return { ...spreadDischarge(spreadSuction(usual, equipment, index), known, index), ...warm };
}

/** Candidate `index` (0 to CANDIDATES − 1) of the pools that this one may be: the same one every time. */
export function candidateAt(equipment: Equipment, known: KnownFacts, index: number): Candidate {
  return {
    loop: loopOf(equipment, known, index),
    suctionScore: score(index, 'suction'),
    dischargeScore: score(index, 'discharge'),
    gaugeScores: [score(index, 'pressureError'), score(index, 'vacuumError'), score(index, 'suctionError')],
    usualDirt: 1 + 0.6 * even(index, 'dirt'),
    // Pool pumps turn some 30 to 50 % of what they draw into moving water (from memory).
    wireToWater: 0.4 * lognormal(index, 'efficiency', 0.2),
  };
}
