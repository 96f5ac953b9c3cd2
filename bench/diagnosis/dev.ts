import { writeFileSync, readFileSync, existsSync } from 'node:fs';
import { costOfPolicy, optimum, safeOrder } from '../../tests/exact/optimum.ts';
import { randomReduced } from '../../tests/exact/random-reduced.ts';
import { mulberry32 } from '../../tests/truth/random.ts';
const file = process.argv[2]!;
const n = Number(process.argv[3]);
const { nextStep } = (await import(file)) as typeof import('../../src/calc/next-step.ts');
const cache = '/tmp/opt-cache.json';
const known: number[] = existsSync(cache) ? JSON.parse(readFileSync(cache, 'utf8')) : [];
const random = mulberry32(20260404);
const ex: [number, number][] = [];
for (let i = 0; i < n; i++) {
  const m = randomReduced(random);
  const o = known[i] ?? (known[i] = optimum(m, safeOrder).cost);
  const c = costOfPolicy(m, ({ outlook }) => nextStep(outlook).choice);
  ex.push([c / o - 1, i]);
}
writeFileSync(cache, JSON.stringify(known));
ex.sort((a, b) => a[0] - b[0]);
console.log({
  n,
  mean: ex.reduce((a, b) => a + b[0], 0) / n,
  worst: ex.slice(-5),
  p95: ex[Math.floor(0.95 * n)]![0],
  min: ex[0],
});
