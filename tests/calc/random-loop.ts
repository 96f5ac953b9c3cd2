/** Loops for property tests: far beyond what a pool has, yet every number finite. */
import fc from 'fast-check';
import type { PoolLoop } from '../../src/calc/circulation.ts';

/** A positive number spread evenly over its decades. */
function decades(from: number, to: number): fc.Arbitrary<number> {
  return fc
    .double({ min: Math.log10(from), max: Math.log10(to), noNaN: true })
    .map((exponent) => Math.pow(10, exponent));
}

function between(min: number, max: number): fc.Arbitrary<number> {
  return fc.double({ min, max, noNaN: true });
}

export const leakArea = fc.oneof(fc.constant(0), decades(1e-8, 1e-4));

/** Pumps from toy to giant, pipes from wide open to nearly shut, flooded and lifting, hot, cold, high up. */
export const wildLoop: fc.Arbitrary<PoolLoop> = fc.record({
  pump: fc.record({
    shutOffHeadM: between(3, 40),
    curveCoefficient: decades(1e4, 1e7),
    speedRatio: between(0.1, 1.2),
    impellerFactor: between(0.1, 1),
  }),
  cleaner: fc.record({
    hoseLoss: decades(1e3, 1e10),
    lineLoss: decades(1e2, 1e8),
    opening: between(0.02, 1),
    bypassConductance: fc.oneof(fc.constant(0), decades(1e-5, 1e-2)),
  }),
  other: fc.record({ loss: decades(1e4, 1e10), opening: between(0, 1) }),
  commonLoss: decades(1e2, 1e9),
  filter: fc.record({ linear: decades(1e-2, 1e6), square: decades(1e2, 1e7) }),
  returnLoss: decades(1e3, 1e10),
  leakAreaM2: leakArea,
  gaugeAbovePoolM: between(-1, 2),
  pumpAbovePoolM: between(-3, 4),
  waterC: between(1, 44),
  atmospherePa: between(70_000, 104_000),
});

export const RUNS = { seed: 20_240_517, numRuns: 3000 };
