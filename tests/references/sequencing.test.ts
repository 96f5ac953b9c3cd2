/** Ordering steps under precedence: 1|prec|Σ w C, with a mixed-integer solver as an independent oracle. */
import highs from 'highs';
import { describe, expect, it } from 'vitest';
import { costOfOrder, leastSequence } from '../exact/sequence.ts';
import type { Jobs } from '../exact/sequence.ts';

/** Chains such as '1→2→3; 5→6', counted from 1. */
function chains(text: string): [number, number][] {
  return text.split(';').flatMap((chain) => {
    const jobs = chain
      .split('→')
      .map((job) => Number(job) - 1)
      .filter((job) => job >= 0);
    return jobs.slice(1).map((job, index): [number, number] => [jobs[index]!, job]);
  });
}

interface Instance extends Jobs {
  name: string;
  optimum: number;
  order: readonly number[];
  orders?: number;
}

const PINEDO = [3, 6, 6, 5, 4, 8, 9];
const PINEDO_WEIGHTS = [0, 18, 12, 8, 8, 17, 16];

const INSTANCES: readonly Instance[] = [
  {
    name: 'Pinedo, Scheduling, example 3.1.5 (data from memory; optimum recomputed)',
    duration: [3, 6, 6, 5, 4, 8, 10],
    weight: [6, 18, 12, 8, 8, 17, 18],
    precedence: chains('1→2→3→4; 5→6→7'),
    optimum: 1967,
    order: [1, 2, 5, 6, 3, 7, 4],
  },
  {
    name: 'Pinedo, exercise 3.1 (data from memory; optimum recomputed)',
    duration: PINEDO,
    weight: PINEDO_WEIGHTS,
    precedence: [],
    optimum: 1610,
    order: [2, 6, 3, 5, 7, 4, 1],
    orders: 2,
  },
  {
    name: 'Pinedo, exercise 3.2 (data from memory; optimum recomputed)',
    duration: PINEDO,
    weight: PINEDO_WEIGHTS,
    precedence: chains('1→2; 3→4→5; 6→7'),
    optimum: 1854,
    order: [6, 1, 2, 3, 4, 5, 7],
    orders: 4,
  },
  {
    name: 'set-up tree (invented; optimum recomputed)',
    duration: [4, 1, 2, 3],
    weight: [0, 6, 4, 5],
    precedence: chains('1→2; 1→3'),
    optimum: 103,
    order: [4, 1, 2, 3],
  },
  {
    name: 'N-shaped order (invented; optimum recomputed)',
    duration: [2, 3, 1, 4],
    weight: [1, 2, 6, 5],
    precedence: chains('1→3; 1→4; 2→4'),
    optimum: 82,
    order: [1, 3, 2, 4],
  },
  {
    name: 'series-parallel (invented; optimum recomputed)',
    duration: [2, 4, 3, 1, 5],
    weight: [1, 3, 9, 2, 6],
    precedence: chains('1→3; 2→3; 4→5'),
    optimum: 204,
    order: [4, 2, 1, 3, 5],
  },
];

/** The linear-ordering program of the instance: x_i_j is 1 where job i comes before job j. */
function program({ duration, weight, precedence }: Jobs): string {
  const jobs = duration.map((_, index) => index);
  const pairs = jobs.flatMap((i) => jobs.filter((j) => j !== i).map((j): [number, number] => [i, j]));
  const terms = pairs.map(([i, j]) => `${duration[i]! * weight[j]!} x_${i}_${j}`);
  const one = pairs.filter(([i, j]) => i < j).map(([i, j]) => `x_${i}_${j} + x_${j}_${i} = 1`);
  const noCircle = pairs.flatMap(([i, j]) =>
    jobs.filter((k) => k !== i && k !== j).map((k) => `x_${i}_${j} + x_${j}_${k} + x_${k}_${i} <= 2`),
  );
  const before = precedence.map(([i, j]) => `x_${i}_${j} = 1`);
  const names = pairs.map(([i, j]) => `x_${i}_${j}`);
  return `Minimize\n ${terms.join(' + ')}\nSubject To\n ${[...one, ...noCircle, ...before].join('\n ')}\nBinary\n ${names.join(' ')}\nEnd`;
}

// Smith's rule where nothing comes before anything; precedence: Sidney 1975, Lawler 1978.
describe.each(INSTANCES)('$name', (instance) => {
  const { duration, weight, optimum, order, orders } = instance;

  it('should have the optimum and the order given', () => {
    const least = leastSequence(instance);
    expect(least.cost).toBe(optimum);
    const given = order.map((job) => job - 1);
    expect(costOfOrder(instance, given)).toBe(optimum);
    for (const [before, after] of instance.precedence)
      expect(given.indexOf(before)).toBeLessThan(given.indexOf(after));
    if (orders !== undefined) expect(least.orders).toBe(orders);
  });

  // highs, a public mixed-integer solver, on the linear-ordering program of the same instance.
  it('should agree with an independent solver', async () => {
    // The package's types describe another module form than the one it is loaded in.
    const solver = await (highs as unknown as typeof highs.default)();
    const { ObjectiveValue } = solver.solve(program(instance));
    const own = duration.reduce((sum, time, job) => sum + time * weight[job]!, 0);
    expect(ObjectiveValue + own).toBeCloseTo(optimum, 6);
  });
});

it("should follow Smith's rule where there is no precedence", () => {
  const free = INSTANCES[1]!;
  const order = free.duration
    .map((_, job) => job)
    .sort((a, b) => free.weight[b]! / free.duration[b]! - free.weight[a]! / free.duration[a]!);
  expect(costOfOrder(free, order)).toBe(free.optimum);
});
