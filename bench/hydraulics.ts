/** Prints the time of one operating point, ns, for loops with and without air. Run: npx tsx bench/hydraulics.ts */
import { operatingPoint, type PoolLoop } from '../src/calc/circulation.ts';
import { genericPumpCurve } from '../src/calc/pump-curve.ts';
import { typicalLoop, withHoseOff } from '../src/calc/typical-loop.ts';
import { W_PER_HP } from '../src/calc/units.ts';

const POINTS = 200_000;
const ROUNDS = 7;

const clean = typicalLoop({ pumpCurve: genericPumpCurve(W_PER_HP), speedRatio: 1, filterType: 'sand' });
const CASES: readonly (readonly [string, PoolLoop])[] = [
  ['clean, no air', clean],
  ['hose off, no air', withHoseOff(clean)],
  ['suction strangled, boiling', { ...clean, commonLoss: 1e7 }],
  ['leak 0.5 mm²', { ...clean, leakAreaM2: 0.5e-6 }],
  ['leak 1.5 mm²', { ...clean, leakAreaM2: 1.5e-6 }],
  ['leak 1.5 mm², flooded pump', { ...clean, leakAreaM2: 1.5e-6, pumpAbovePoolM: -1 }],
  ['leak 100 mm², flooded pump', { ...clean, leakAreaM2: 1e-4, pumpAbovePoolM: -1 }],
  ['leak 3 mm², prime lost', { ...clean, leakAreaM2: 3e-6 }],
];

/** Slightly different loops, so that nothing can be remembered between calls. */
function variants(loop: PoolLoop): PoolLoop[] {
  return Array.from({ length: 64 }, (_, index) => ({
    ...loop,
    returnLoss: loop.returnLoss * (1 + index / 1000),
  }));
}

/** Median over rounds of the ns a point takes. */
function nsPerPoint(loop: PoolLoop): number {
  const loops = variants(loop);
  const times: number[] = [];
  for (let round = 0; round < ROUNDS; round += 1) {
    let flowing = 0;
    const start = process.hrtime.bigint();
    for (let index = 0; index < POINTS; index += 1)
      if (operatingPoint(loops[index & 63]!).kind === 'flowing') flowing += 1;
    times.push(Number(process.hrtime.bigint() - start) / POINTS);
    if (flowing < 0) throw new Error('unreachable, and keeps the loop from being removed');
  }
  return times.sort((a, b) => a - b)[ROUNDS >> 1]!;
}

console.log(`Operating point of the circulation loop, median of ${ROUNDS} rounds of ${POINTS} points`);
console.log(`${'case'.padEnd(30)}${'result'.padEnd(12)}ns/point`);
for (const [name, loop] of CASES) {
  const point = operatingPoint(loop);
  const result = point.kind === 'flowing' ? 'flowing' : point.reason;
  console.log(`${name.padEnd(30)}${result.padEnd(12)}${nsPerPoint(loop).toFixed(0)}`);
}
