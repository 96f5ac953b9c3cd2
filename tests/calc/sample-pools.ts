/** Pools in good order: four generic pumps, two speeds, three filters. */
import { operatingPoint, type FlowingPoint, type PoolLoop } from '../../src/calc/circulation.ts';
import type { FilterType } from '../../src/calc/filter-loss.ts';
import { genericPumpCurve } from '../../src/calc/pump-curve.ts';
import { typicalLoop } from '../../src/calc/typical-loop.ts';
import { W_PER_HP } from '../../src/calc/units.ts';

export interface Pool {
  readonly name: string;
  readonly fullSpeed: boolean;
  readonly loop: PoolLoop;
}

const FILTERS: readonly FilterType[] = ['sand', 'cartridge', 'de'];
export const POOLS: readonly Pool[] = [0.75, 1, 1.5, 2].flatMap((hp) =>
  [1, 0.55].flatMap((speedRatio) =>
    FILTERS.map((filterType) => ({
      name: `${hp} hp ${speedRatio === 1 ? 'full' : 'low'} speed, ${filterType}`,
      fullSpeed: speedRatio === 1,
      loop: typicalLoop({ pumpCurve: genericPumpCurve(hp * W_PER_HP), speedRatio, filterType }),
    })),
  ),
);

export const oneHp = typicalLoop({
  pumpCurve: genericPumpCurve(W_PER_HP),
  speedRatio: 1,
  filterType: 'sand',
});

/** The operating point of a loop that must have one. */
export function flowing(loop: PoolLoop): FlowingPoint {
  const point = operatingPoint(loop);
  if (point.kind === 'none') throw new Error(`no flow: ${point.reason}`);
  return point;
}
