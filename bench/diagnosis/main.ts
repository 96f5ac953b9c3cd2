import { comparison, SEED } from './compare.ts';
const count = Number(process.argv[process.argv.indexOf('--cases') + 1] ?? 200);
for (const draw of ['prior', 'uniform'] as const) {
  const t = performance.now();
  console.log(draw, SEED);
  console.log(comparison(draw, count).table);
  console.log(((performance.now() - t) / 1000).toFixed(1), 's');
}
