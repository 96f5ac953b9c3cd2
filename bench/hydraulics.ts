/** Prints what the hydraulics cost: one operating point, ns, and the model of one pool, ms. Run: npx tsx bench/hydraulics.ts */
import { operatingPoint, type PoolLoop } from '../src/calc/circulation.ts';
import { genericPumpCurve } from '../src/calc/pump-curve.ts';
import { typicalLoop, withHoseOff } from '../src/calc/typical-loop.ts';
import { PA_PER_INHG, PA_PER_PSI, W_PER_HP } from '../src/calc/units.ts';
import { calibrate, type HydraulicModel } from '../src/engine/hydraulics/calibrate.ts';
import { predictedChange } from '../src/engine/hydraulics/change.ts';
import { estimates } from '../src/engine/hydraulics/estimates.ts';
import { bandProbabilities, effectLogLikelihoods } from '../src/engine/hydraulics/likelihood.ts';
import { EFFECTS, type Equipment } from '../src/knowledge/schema.ts';

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

const EQUIPMENT: Equipment = { cleaner: 'suction', filter: 'sand', pump: 'variable-speed' };
const TWO = { filterPressurePa: 20 * PA_PER_PSI, pumpVacuumPa: 4 * PA_PER_INHG };
const THREE = { ...TWO, cleanerSuctionPa: 2 * PA_PER_INHG };
const EDGES = [1, 3, 6, 9, 14].map((inHg) => inHg * PA_PER_INHG);
const POOLS = 1600;
const WARM = 1500;

/** A pool that none before was quite like, so that nothing is remembered. */
function freshModel(round: number): HydraulicModel {
  const filterPressurePa = (14 + round / 300) * PA_PER_PSI;
  const calibration = calibrate(EQUIPMENT, [{ filterPressurePa, pumpVacuumPa: 7 * PA_PER_INHG }]);
  if (calibration.kind === 'questioned') throw new Error(calibration.question.reason);
  return calibration.model;
}

type Work = (model: HydraulicModel, round: number) => unknown;
const WORK: readonly (readonly [string, Work])[] = [
  ['calibration alone', (_, round) => freshModel(round)],
  [
    'cold: calibration, table, two gauges, all effects',
    (_, round) => effectLogLikelihoods(freshModel(round), TWO),
  ],
  ['kept: two gauges, all effects', (model) => effectLogLikelihoods(model, TWO)],
  ['kept: three gauges, all effects', (model) => effectLogLikelihoods(model, THREE)],
  [
    'six bands of one gauge, all effects',
    (model) => EFFECTS.map((e) => bandProbabilities(model, 'pump-vacuum', e, EDGES)),
  ],
  ['hose-off test under one effect', (model) => predictedChange(model, 'air-at-pump', { kind: 'hose-off' })],
  [
    'estimates with readings and speeds',
    (model) => estimates(model, TWO, { volumeM3: 60, pricePerKWh: 0.2 }),
  ],
];

function msOf(work: Work): number[] {
  const kept = freshModel(0);
  const times = Array.from({ length: POOLS }, (_, round) => {
    const start = process.hrtime.bigint();
    work(kept, round + 1);
    return Number(process.hrtime.bigint() - start) / 1e6;
  });
  return times.slice(WARM).sort((a, b) => a - b);
}

const first = process.hrtime.bigint();
effectLogLikelihoods(freshModel(0), TWO);
console.log(`\nFirst pool of the process: ${(Number(process.hrtime.bigint() - first) / 1e6).toFixed(1)} ms`);
console.log(`One pool's model, ms over ${POOLS - WARM} calls${' '.repeat(22)}median      best`);
for (const [name, work] of WORK) {
  const times = msOf(work);
  const cells = [times[times.length >> 1]!, times[0]!].map((ms) => ms.toFixed(3).padStart(10));
  console.log(name.padEnd(52) + cells.join(''));
}
