/** Troubleshooting: repairs, questions, set-ups and the hand-off against optima recomputed by exact enumeration. */
import { describe, expect, it } from 'vitest';
import { afterFailedRepair, normalised, updated, withFloor } from '../../src/calc/belief.ts';
import type { HandOff } from '../../src/calc/repair-table.ts';
import { expectedCostOfRepair } from '../../src/calc/block-sequence.ts';
import { setUpTable, tabled } from '../../src/calc/repair-table.ts';
import { nextStep } from '../../src/calc/next-step.ts';
import type { OpenCheck, OpenRepair } from '../../src/calc/outlook.ts';
import { handOffNow } from '../../src/calc/outlook.ts';
import { inSafeOrder } from '../../src/calc/safe-order.ts';
import { anyOrder, costOfPolicy, optimum } from '../exact/optimum.ts';
import type { Reduced } from '../exact/reduced.ts';
import { atFirst, viewOf } from '../exact/reduced.ts';

/** A hand-off too dear to be thought of. */
const NEVER = 1e6;

function handOffAt(minutes: number): HandOff {
  return { minutes, blindMinutes: 0, suspects: 0 };
}

function repairOf(cause: number, minutes: number, terms: Partial<OpenRepair> = {}): OpenRepair {
  const plain = {
    needs: 0,
    keeps: 7,
    cures: 1,
    lookMinutes: Infinity,
    lookNeeds: 0,
    lookClass: 0,
    onlyAbove: 0,
    class: 0,
  };
  return { ...plain, cause, minutes, ...terms };
}

function question(minutes: number, yes: readonly number[]): OpenCheck {
  const likelihood = [yes, yes.map((p) => 1 - p)];
  return { minutes, class: 0, needs: 0, keeps: 7, answered: 1, likelihood };
}

function model(
  prior: readonly number[],
  repairs: readonly OpenRepair[],
  rest: Partial<Reduced> = {},
): Reduced {
  return {
    prior,
    repairs,
    checks: [],
    looks: repairs.map(() => []),
    setUps: [],
    handOff: handOffAt(NEVER),
    ...rest,
  };
}

/** Σ c × P(not cured before), each repair curing its own cause for sure. */
function costOfOrder(p: readonly number[], c: readonly number[], order: readonly number[]): number {
  let left = 1;
  return order.reduce((sum, repair) => {
    const cost = sum + left * c[repair - 1]!;
    left -= p[repair - 1]!;
    return cost;
  }, 0);
}

function permutations<T>(of: readonly T[]): T[][] {
  if (of.length === 0) return [[]];
  return of.flatMap((first, index) =>
    permutations([...of.slice(0, index), ...of.slice(index + 1)]).map((rest) => [first, ...rest]),
  );
}

/** The engine's estimate without looking ahead. */
function estimate({ prior, repairs, setUps, handOff }: Reduced): number {
  return expectedCostOfRepair(prior, tabled(repairs), setUpTable(setUps), 0, handOff);
}

const P = [0.4, 0.3, 0.2, 0.1];
const C = [8, 2, 5, 1];
const REPAIRS = C.map((minutes, cause) => repairOf(cause, minutes));

// Rule: Kadane & Simon 1977; Kalagnanam & Henrion 1990.
describe('T1: four faults, perfect repairs', () => {
  it('should cost 8.5 in the order 2,4,1,3, and more in any other', () => {
    expect(estimate(model(P, REPAIRS))).toBeCloseTo(8.5, 9);
    expect(optimum(model(P, REPAIRS), anyOrder).cost).toBeCloseTo(8.5, 9);
    expect(costOfOrder(P, C, [2, 4, 1, 3])).toBeCloseTo(8.5, 9);
    const costs = permutations([1, 2, 3, 4]).map((order) => costOfOrder(P, C, order));
    expect(Math.min(...costs)).toBeCloseTo(8.5, 9);
    expect(Math.max(...costs)).toBeCloseTo(12.4, 9);
  });

  it('should cost 9.0 by cost and 10.8 by probability', () => {
    expect(costOfOrder(P, C, [4, 2, 3, 1])).toBeCloseTo(9, 9);
    expect(costOfOrder(P, C, [1, 2, 3, 4])).toBeCloseTo(10.8, 9);
  });

  it('should be taken in that order by the planner', () => {
    const whole = model(P, REPAIRS);
    expect(costOfPolicy(whole, ({ outlook }) => nextStep(outlook).choice)).toBeCloseTo(8.5, 9);
  });
});

// Data after Jensen/Ottosen, from memory.
describe('T2: repairs that cure two faults each', () => {
  const prior = [0.2, 0.25, 0.4, 0.15];
  const cures = [
    [1, 2],
    [2, 3],
    [3, 4],
  ];
  const cost = (order: readonly number[]): number => {
    let left = [1, 2, 3, 4];
    return order.reduce((sum, action) => {
      const probability = left.reduce((total, fault) => total + prior[fault - 1]!, 0);
      left = left.filter((fault) => !cures[action - 1]!.includes(fault));
      return sum + probability;
    }, 0);
  };

  it('should cost 1.50 taken greedily and 1.45 at best', () => {
    expect(cost([2, 1, 3])).toBeCloseTo(1.5, 9);
    expect(cost([3, 1])).toBeCloseTo(1.45, 9);
    expect(Math.min(...permutations([1, 2, 3]).map(cost))).toBeCloseTo(1.45, 9);
  });
});

// Rule: Heckerman, Breese & Rommelse, CACM 38(3), 1995.
describe('T3: a question before the repairs', () => {
  const yes = [0.9, 0.2, 0.1, 0.5];
  const asking = (minutes: number): Reduced => model(P, REPAIRS, { checks: [question(minutes, yes)] });

  it('should have P(o1) = .49 and cost 6.98 after the answer', () => {
    expect(P.reduce((sum, p, fault) => sum + p * yes[fault]!, 0)).toBeCloseTo(0.49, 9);
    const after = (row: readonly number[]): number => estimate(model(updated(P, row), REPAIRS));
    const no = yes.map((p) => 1 - p);
    expect(0.49 * after(yes) + 0.51 * after(no)).toBeCloseTo(6.98, 9);
  });

  it('should be asked second at a cost of 1 (7.86 against 7.98), and first at .5 (7.48)', () => {
    const dear = optimum(asking(1), anyOrder);
    expect(dear.cost).toBeCloseTo(7.86, 9);
    expect(dear.first).toEqual({ kind: 'repair', index: 1 });
    const askedFirst = inSafeOrder(viewOf(asking(1), atFirst(asking(1))).outlook).prospects[0]!;
    expect(askedFirst.cost).toBeCloseTo(7.98, 9);
    const cheap = optimum(asking(0.5), anyOrder);
    expect(cheap.cost).toBeCloseTo(7.48, 9);
    expect(cheap.first).toEqual({ kind: 'check', index: 0 });
  });

  it('should be taken at its best by the planner', () => {
    for (const [minutes, cost] of [
      [1, 7.86],
      [0.5, 7.48],
    ] as const)
      expect(costOfPolicy(asking(minutes), ({ outlook }) => nextStep(outlook).choice)).toBeCloseTo(cost, 9);
  });
});

// Recomputed by exact enumeration.
describe('T4: two questions that only help together', () => {
  const repairs = [0, 1, 2, 3].map((cause) => repairOf(cause, 10));
  const checks = [question(0.5, [1, 1, 0, 0]), question(0.5, [1, 0, 1, 0])];
  const whole = model([0.25, 0.25, 0.25, 0.25], repairs, { checks, handOff: handOffAt(12) });

  it('should be handed on by a look one step ahead, at 12', () => {
    const { outlook } = viewOf(whole, atFirst(whole));
    expect(handOffNow(outlook)).toBe(12);
    expect(Math.min(...inSafeOrder(outlook).prospects.map(({ cost }) => cost))).toBeGreaterThan(12);
  });

  it('should be asked both, at 11, by the optimum and by the planner', () => {
    expect(optimum(whole, anyOrder).cost).toBeCloseTo(11, 9);
    expect(costOfPolicy(whole, ({ outlook }) => nextStep(outlook).choice)).toBeCloseTo(11, 9);
  });
});

// Cost clusters: Ottosen & Jensen, arXiv 1203.3502.
describe('T5: two repairs behind a lid', () => {
  const prior = [0.4, 4 / 15, 1 / 3];
  const behind = (minutes: number, cause: number, keeps: number): OpenRepair =>
    repairOf(cause, minutes, { needs: 1, keeps });

  it('should cost 103/15 in the order 3,1,2', () => {
    const repairs = [behind(1, 0, 7), behind(2, 1, 7), repairOf(2, 3)];
    const whole = model(prior, repairs, { setUps: [4] });
    const best = optimum(whole, anyOrder);
    expect(best.cost).toBeCloseTo(103 / 15, 9);
    expect(best.first).toEqual({ kind: 'repair', index: 2 });
    expect(estimate(whole)).toBeCloseTo(103 / 15, 9);
    expect(costOfPolicy(whole, ({ outlook }) => nextStep(outlook).choice)).toBeCloseTo(103 / 15, 9);
  });

  it('should cost 29/3 as {3},{1,2} where the lid must be closed (3) to test', () => {
    // The steps of that form: 3 alone, or 1, 2 or both under one opening and one closing.
    const both = repairOf(0, 4 + 1 + 2 + 3);
    const costs = [
      3 + (2 / 3) * both.minutes,
      both.minutes + 0.4 * 0 + (1 / 3) * 3,
      3 + (2 / 3) * (4 + 1 + 3) + (4 / 15) * (4 + 2 + 3),
      4 + 1 + 3 + 0.6 * 3 + (4 / 15) * (4 + 2 + 3),
      4 + 1 + 3 + 0.6 * (4 + 2 + 3) + (1 / 3) * 3,
    ];
    expect(Math.min(...costs)).toBeCloseTo(29 / 3, 9);
    expect(costs[0]).toBeCloseTo(29 / 3, 9);
  });
});

// Recomputed by exact enumeration.
describe('T6: the best point to hand off', () => {
  const prior = [0.35, 0.25, 0.15, 0.05, 0.2];

  it.each([
    [5, 5],
    [10, 9.5],
    [15, 13.1],
    [60, 22.1],
  ])('should cost, with a hand-off of %f, %f', (handOff, cost) => {
    const whole = model(prior, REPAIRS, { handOff: handOffAt(handOff) });
    expect(estimate(whole)).toBeCloseTo(cost, 9);
    expect(optimum(whole, anyOrder).cost).toBeCloseTo(cost, 9);
    expect(costOfPolicy(whole, ({ outlook }) => nextStep(outlook).choice)).toBeCloseTo(cost, 9);
  });

  it('should be at once at 5, and after repair 2 at 10', () => {
    const first = (handOff: number): unknown =>
      optimum(model(prior, REPAIRS, { handOff: handOffAt(handOff) }), anyOrder).first;
    expect(first(5)).toEqual({ kind: 'hand-off' });
    expect(first(10)).toEqual({ kind: 'repair', index: 1 });
  });
});

// Recomputed by exact enumeration.
describe('T7: independent faults, several at once', () => {
  const p = [0.6, 0.2, 0.3, 0.1];
  const c = [10, 3, 7, 2];
  /** At least one fault is there; repairs go on until none is left. */
  const cost = (order: readonly number[]): number => {
    let expected = 0;
    let total = 0;
    for (let faults = 1; faults < 16; faults += 1) {
      const weight = p.reduce((w, q, fault) => w * ((faults & (1 << fault)) === 0 ? 1 - q : q), 1);
      let left = faults;
      let spent = 0;
      for (const repair of order) {
        if (left === 0) break;
        spent += c[repair - 1]!;
        left &= ~(1 << (repair - 1));
      }
      expected += weight * spent;
      total += weight;
    }
    return expected / total;
  };
  const sorted = (key: (fault: number) => number): number[] =>
    [1, 2, 3, 4].sort((a, b) => key(a - 1) - key(b - 1));

  it('should cost 15.3582 in the order 1,2,3,4, by c(1−p)/p ascending', () => {
    const order = sorted((fault) => (c[fault]! * (1 - p[fault]!)) / p[fault]!);
    expect(order).toEqual([1, 2, 3, 4]);
    expect(cost(order)).toBeCloseTo(15.3582, 4);
    expect(Math.min(...permutations([1, 2, 3, 4]).map(cost))).toBeCloseTo(15.3582, 4);
  });

  it('should cost 15.9259 in the p/c order', () => {
    expect(cost(sorted((fault) => -p[fault]! / c[fault]!))).toBeCloseTo(15.9259, 4);
  });
});

// Recomputed from Bayes' rule.
describe('T8: a repair that failed', () => {
  it('should leave .0909, .5455, .3636', () => {
    const belief = afterFailedRepair([0.5, 0.3, 0.2], 0, 0.9);
    [0.0909, 0.5455, 0.3636].forEach((value, fault) => expect(belief[fault]).toBeCloseTo(value, 4));
  });
});

// Recomputed from Bayes' rule.
describe('T10: an answer with a floor', () => {
  it.each([
    [0, [0, 0.9231, 0.0769]],
    [0.02, [0.0189, 0.8995, 0.0816]],
  ] as const)('should leave, with the floor %f, %j', (epsilon, expected) => {
    const likelihood = [0, 0.8, 0.1].map((p) => withFloor(p, 2, epsilon));
    const belief = updated([0.5, 0.3, 0.2], likelihood);
    expected.forEach((value, fault) => expect(belief[fault]).toBeCloseTo(value, 4));
  });
});

// Recomputed by enumeration of the joint states.
describe('T11: independent faults, one or two at once', () => {
  it('should believe .92356, .09634, .02685 after the outcome was seen', () => {
    const p = [0.05, 0.03, 0.02];
    const shows = [0.9, 0.1, 0];
    const leak = 0.02;
    const states = [[0], [1], [2], [0, 1], [0, 2], [1, 2]];
    const prior = normalised(
      states.map((present) => p.reduce((w, q, fault) => w * (present.includes(fault) ? q : 1 - q), 1)),
    );
    const seen = states.map(
      (present) => 1 - present.reduce((none, fault) => none * (1 - shows[fault]!), 1 - leak),
    );
    const belief = updated(prior, seen);
    const marginal = (fault: number): number =>
      states.reduce((sum, present, index) => (present.includes(fault) ? sum + belief[index]! : sum), 0);
    [0.92356, 0.09634, 0.02685].forEach((value, fault) => expect(marginal(fault)).toBeCloseTo(value, 5));
  });
});
