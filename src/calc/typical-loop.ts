/** A whole pool's loop from what an owner can tell, where nothing was measured yet. Invented defaults, no source. */
import type { PoolLoop } from './circulation.ts';
import { filterLoss, type FilterType } from './filter-loss.ts';
import { minorLossCoefficient } from './pipe-friction.ts';
import { genericPumpCurve, type PumpCurve } from './pump-curve.ts';
import { ATMOSPHERE_PA, M2_PER_FT2, M_PER_IN } from './units.ts';

export interface PoolSketch {
  /** The owner's own curve, or a generic one by genericPumpCurve. */
  readonly pumpCurve: PumpCurve;
  /** Speed over full speed, above 0. */
  readonly speedRatio: number;
  readonly filterType: FilterType;
  readonly filterAreaM2?: number;
  readonly pumpAbovePoolM?: number;
}

/** Areas of a middling pool's filter: 24 in sand tank, 200 ft² cartridge, 40 ft² de. */
export const USUAL_AREA_M2: Record<FilterType, number> = {
  sand: 3.14 * M2_PER_FT2,
  cartridge: 200 * M2_PER_FT2,
  de: 40 * M2_PER_FT2,
};

/** Losses of the loop behind a 1 hp pump, s²/m⁵: some 50 gpm, two thirds of it through the cleaner. */
const ONE_HP_LOSS = { hose: 3.5e5, line: 2e4, other: 2.6e6, common: 1e4, return: 6.5e5 };

/** Pipes grow with the pump they serve: losses fall as the square of the largest flow the pump can give. */
function pipeScale(curve: PumpCurve): number {
  const oneHp = genericPumpCurve(745.7);
  const largestSquared = (pump: PumpCurve): number => pump.shutOffHeadM / pump.curveCoefficient;
  return largestSquared(oneHp) / largestSquared(curve);
}

/**
 * A clean loop in good order: clean filter, no leak, all valves set for a suction cleaner.
 * Flow some 45 to 80 gpm at full speed for 0.75 to 2 hp; filter pressure 8 to 20 psi, vacuum 3 to 12 inHg.
 */
export function typicalLoop(sketch: PoolSketch): PoolLoop {
  const scale = pipeScale(sketch.pumpCurve);
  const areaM2 = sketch.filterAreaM2 ?? USUAL_AREA_M2[sketch.filterType];
  return {
    pump: { ...sketch.pumpCurve, speedRatio: sketch.speedRatio, impellerFactor: 1 },
    cleaner: {
      hoseLoss: ONE_HP_LOSS.hose * scale,
      lineLoss: ONE_HP_LOSS.line * scale,
      opening: 1,
      bypassConductance: 0,
    },
    other: { loss: ONE_HP_LOSS.other * scale, opening: 1 },
    commonLoss: ONE_HP_LOSS.common * scale,
    filter: filterLoss({ type: sketch.filterType, areaM2, dirtFactor: 1 }),
    returnLoss: ONE_HP_LOSS.return * scale,
    leakAreaM2: 0,
    gaugeAbovePoolM: 0.8,
    pumpAbovePoolM: sketch.pumpAbovePoolM ?? 0.15,
    waterC: 26,
    atmospherePa: ATMOSPHERE_PA,
  };
}

/** Conductance of an open 2 in port with a square edge (ζ 0.5) and its exit into the line (ζ 0.5). */
const OPEN_PORT_CONDUCTANCE = 1 / Math.sqrt(minorLossCoefficient(1, 2 * M_PER_IN));

/** The same loop with the cleaner's hose taken off: water enters the open port, none through the cleaner. */
export function withHoseOff(loop: PoolLoop): PoolLoop {
  return {
    ...loop,
    cleaner: { ...loop.cleaner, hoseLoss: Infinity, bypassConductance: OPEN_PORT_CONDUCTANCE },
  };
}
