import { nextStep } from '../../src/calc/next-step.ts';
import { costOfPolicy, optimum, safeOrder } from '../../tests/exact/optimum.ts';
import { randomReduced } from '../../tests/exact/random-reduced.ts';
import { mulberry32 } from '../../tests/truth/random.ts';
const n = Number(process.argv[2] ?? 20);
const random = mulberry32(20260404);
const ex: number[] = [];
let t1 = 0,
  t2 = 0,
  st = 0;
for (let i = 0; i < n; i++) {
  const m = randomReduced(random);
  let t = performance.now();
  const o = optimum(m, safeOrder);
  t1 += performance.now() - t;
  t = performance.now();
  const c = costOfPolicy(m, ({ outlook }) => nextStep(outlook).choice);
  t2 += performance.now() - t;
  ex.push(c / o.cost - 1);
  st += o.states;
  if (i < 10) console.log(m.prior.length, m.checks.length, o.states, o.cost.toFixed(3), c.toFixed(3));
}
ex.sort((a, b) => a - b);
console.log({
  n,
  mean: ex.reduce((a, b) => a + b, 0) / n,
  worst: ex.at(-1),
  p95: ex[Math.floor(0.95 * n)],
  min: ex[0],
  t1,
  t2,
  states: st / n,
});
