/** Cases of one model (a member, an effect, a severity) weighed by what was read. */
import type { PoolLoop } from '../../calc/circulation.ts';
import type { Effect } from '../../knowledge/schema.ts';
import type { HydraulicModel } from './calibrate.ts';
import { loopUnderFault } from './faults.ts';
import type { Member } from './fit-candidate.ts';
import { caseDensities, type Readings } from './likelihood.ts';
import { ordinaryDay, predictionsOf } from './predictions.ts';

/** One way in which the pool may stand now. */
export interface WeighedCase {
  readonly member: Member;
  readonly effect: Effect;
  readonly severity: number;
  readonly loop: PoolLoop;
  readonly weight: number;
}

/** More cases than this are thinned out: the points of a spread move by less than their own uncertainty. */
const MOST_CASES = 400;

interface Plain {
  readonly effect: Effect;
  readonly index: number;
  readonly severity: number;
  readonly weight: number;
}

function plainCases(model: HydraulicModel, effect: Effect, share: number, readings: Readings): Plain[] {
  const table = predictionsOf(model, effect);
  return Array.from(caseDensities(table, readings), (density, at) => ({
    effect,
    index: table.member[at] ?? 0,
    severity: table.severity[at] ?? 0,
    weight: density * share,
  }));
}

function unread(model: HydraulicModel, shares: readonly (readonly [Effect, number])[]): Plain[] {
  return shares.flatMap(([effect, share]) => plainCases(model, effect, share, {}));
}

/** Even picks along the weight (systematic resampling): no effect, pool or severity is favoured. */
function thinned(cases: readonly Plain[]): Plain[] {
  const step = cases.reduce((sum, { weight }) => sum + weight, 0) / MOST_CASES;
  let passed = 0;
  return cases.flatMap((one) => {
    const before = Math.floor(passed / step + 0.5);
    passed += one.weight;
    const picks = Math.floor(passed / step + 0.5) - before;
    return picks > 0 ? [{ ...one, weight: picks / MOST_CASES }] : [];
  });
}

/**
 * The cases of the given effects, each effect by its share (0 or above), after readings. Readings that no case
 * explains leave the cases as they were before them. Weights are relative.
 */
export function weighedCases(
  model: HydraulicModel,
  shares: readonly (readonly [Effect, number])[],
  readings: Readings = {},
): WeighedCase[] {
  const read = shares.flatMap(([effect, share]) => plainCases(model, effect, share, readings));
  const explained = read.some(({ weight }) => weight > 0);
  const cases = explained ? read.filter(({ weight }) => weight > 0) : unread(model, shares);
  const kept = cases.length > MOST_CASES ? thinned(cases) : cases;
  return kept.flatMap(({ index, effect, severity, weight }) => {
    const member = model.members[index];
    if (member === undefined) return [];
    return [
      { member, effect, severity, weight, loop: loopUnderFault(ordinaryDay(member), effect, severity) },
    ];
  });
}
