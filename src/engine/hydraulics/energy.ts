/** Power, time and cost of running a variable-speed pump at other speeds. */
import { operatingPoint } from '../../calc/circulation.ts';
import { waterWeightNPerM3 } from '../../calc/water.ts';
import type { WeighedCase } from './cases.ts';
import { loopAfterChange } from './change.ts';
import { spreadOf, type Spread } from './quantiles.ts';

export interface SpeedEstimate {
  /** Speed over the present one. */
  readonly ratio: number;
  readonly flowM3PerS: Spread;
  readonly powerW: Spread;
  /** Energy that moves a cubic metre, J. */
  readonly energyJPerM3: Spread;
  /** Time and energy to move the pool's volume once; only where the volume is known. */
  readonly turnoverS?: Spread;
  readonly turnoverJ?: Spread;
  /** Cost to move the pool's volume once, in the currency of the price; only where both are known. */
  readonly turnoverCost?: Spread;
}

const J_PER_KWH = 3.6e6;

interface Duty {
  readonly weight: number;
  readonly flowM3PerS: number;
  readonly powerW: number;
}

/** P = ρ g Q H / η. η is held as the speed changes, so power goes with its cube; a motor at low speed does a little worse. */
function dutiesAt(cases: readonly WeighedCase[], ratio: number): Duty[] {
  return cases.flatMap(({ loop, member, weight }) => {
    const point = operatingPoint(loopAfterChange(loop, { kind: 'speed', ratio }));
    if (point.kind === 'none') return [];
    const { flowM3PerS, totalDynamicHeadM } = point;
    const powerW = (waterWeightNPerM3(loop.waterC) * flowM3PerS * totalDynamicHeadM) / member.wireToWater;
    return [{ weight, flowM3PerS, powerW }];
  });
}

/**
 * Estimates at each speed ratio (above 0); a ratio at which nothing flows is left out. Volume m³, price for a kWh.
 * Efficiency from supply to water some 0.3 to 0.5 (from memory).
 */
export function speedEstimates(
  cases: readonly WeighedCase[],
  ratios: readonly number[],
  volumeM3: number | undefined,
  pricePerKWh: number | undefined,
): SpeedEstimate[] {
  return ratios.flatMap((ratio) => {
    const duties = dutiesAt(cases, ratio);
    const spread = (of: (duty: Duty) => number): Spread | undefined =>
      spreadOf(duties.map((duty) => ({ value: of(duty), weight: duty.weight })));
    const flowM3PerS = spread((duty) => duty.flowM3PerS);
    const powerW = spread((duty) => duty.powerW);
    const energyJPerM3 = spread((duty) => duty.powerW / duty.flowM3PerS);
    if (!flowM3PerS || !powerW || !energyJPerM3) return [];
    const turnoverS = volumeM3 === undefined ? undefined : spread((duty) => volumeM3 / duty.flowM3PerS);
    const turnoverJ = volumeM3 === undefined ? undefined : scaled(energyJPerM3, volumeM3);
    const turnoverCost =
      turnoverJ === undefined || pricePerKWh === undefined
        ? undefined
        : scaled(turnoverJ, pricePerKWh / J_PER_KWH);
    return [
      {
        ratio,
        flowM3PerS,
        powerW,
        energyJPerM3,
        ...(turnoverS && { turnoverS }),
        ...(turnoverJ && { turnoverJ }),
        ...(turnoverCost && { turnoverCost }),
      },
    ];
  });
}

function scaled({ p10, p50, p90 }: Spread, factor: number): Spread {
  return { p10: p10 * factor, p50: p50 * factor, p90: p90 * factor };
}
