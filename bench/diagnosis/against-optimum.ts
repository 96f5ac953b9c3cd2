/** The planner's exact expected minutes on small random models against the exact optimum under the same safe order. */
import { nextStep } from '../../src/calc/next-step.ts';
import { costOfPolicy, optimum, safeOrder } from '../../tests/exact/optimum.ts';
import { randomReduced } from '../../tests/exact/random-reduced.ts';
import { mulberry32 } from '../../tests/truth/random.ts';
import { meanWithInterval, shown } from './figures.ts';

export const SEED = 20_260_404;

/** Excess over the optimum, as a share of it, of each of so many random models. */
function excesses(models: number): number[] {
  const random = mulberry32(SEED);
  return Array.from({ length: models }, () => {
    const model = randomReduced(random);
    const own = costOfPolicy(model, ({ outlook }) => nextStep(outlook).choice);
    return own / optimum(model, safeOrder).cost - 1;
  });
}

/** One line of figures. */
export function againstOptimum(models: number): string {
  const all = excesses(models);
  const within = all.filter((excess) => excess <= 0.01).length / models;
  return [
    `${models} models, seed ${SEED}: mean excess ${shown(meanWithInterval(all), 2, 100)} %`,
    `worst ${(100 * Math.max(...all)).toFixed(2)} %`,
    `within 1 % of the optimum in ${(100 * within).toFixed(0)} % of the models`,
  ].join(', ');
}
