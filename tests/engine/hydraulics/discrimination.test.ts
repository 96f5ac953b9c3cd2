import { describe, expect, it } from 'vitest';
import { calibrate } from '../../../src/engine/hydraulics/calibrate.ts';
import { effectLogLikelihoods } from '../../../src/engine/hydraulics/likelihood.ts';
import type { Effect } from '../../../src/knowledge/schema.ts';
import { readSevere, SHOWN_EFFECTS, type ShownEffect } from './simulated-fault.ts';
import { drawWorkingPool, laterDay, randomFrom, readGauges } from './simulated-pool.ts';

/**
 * Which way filter pressure and pump vacuum go (common practice, no source). A stuck gauge, no flow and nothing
 * wrong have rows of their own.
 */
const ROW: Record<ShownEffect, string> = {
  none: 'as clean',
  'cleaner-branch-blocked': 'pressure slightly down, vacuum up',
  'cleaner-branch-closed': 'pressure slightly down, vacuum up',
  'cleaner-branch-bypassed': 'pressure up, vacuum down, beside the cleaner',
  'suction-blocked': 'pressure down, vacuum up',
  'air-at-pump': 'both down, needle shakes',
  'air-in-hose': 'air, most of it water beside the cleaner',
  'pump-curve-shrinks': 'both down',
  'pump-speed-low': 'both down',
  'no-flow': 'both at rest',
  'filter-blocked': 'pressure up, vacuum down',
  'filter-torn': 'pressure down, vacuum slightly up',
  'return-blocked': 'pressure up, vacuum down',
  'gauge-stuck': 'pressure follows nothing',
};

const POOLS = 400;
const ENOUGH = 0.95;

/** Wins of each true effect over each other one, over all simulated pools. */
function matrix(third: boolean): { wins: Map<string, number>; pools: number; questioned: number } {
  const random = randomFrom(20_260_301);
  const wins = new Map<string, number>();
  let pools = 0;
  let questioned = 0;
  for (let draw = 0; draw < POOLS; draw += 1) {
    const pool = drawWorkingPool(random);
    const { filterPressurePa, pumpVacuumPa, cleanerSuctionPa } = readGauges(pool, random);
    const baseline = { filterPressurePa, pumpVacuumPa, ...(third && { cleanerSuctionPa }) };
    const calibration = calibrate(pool.equipment, [baseline]);
    if (calibration.kind === 'questioned') {
      questioned += 1;
      continue;
    }
    pools += 1;
    for (const truth of SHOWN_EFFECTS) {
      const read = readSevere(truth, laterDay(pool, random), random);
      const readings = third
        ? read
        : { filterPressurePa: read.filterPressurePa, pumpVacuumPa: read.pumpVacuumPa };
      const logs = effectLogLikelihoods(calibration.model, readings);
      for (const other of SHOWN_EFFECTS)
        if (logs[truth] > logs[other])
          wins.set(`${truth}>${other}`, (wins.get(`${truth}>${other}`) ?? 0) + 1);
    }
  }
  return { wins, pools, questioned };
}

function print(title: string, share: (truth: Effect, other: Effect) => number): void {
  const lines = SHOWN_EFFECTS.map((truth) => {
    const cells = SHOWN_EFFECTS.map((other) =>
      truth === other ? '    .' : (100 * share(truth, other)).toFixed(0).padStart(5),
    );
    return `${truth.padEnd(25)}${cells.join('')}`;
  });
  const head = SHOWN_EFFECTS.map((_, place) => String(place + 1).padStart(5)).join('');
  console.log([title, ' '.repeat(25) + head, ...lines].join('\n'));
}

describe('severe faults at pools of another mould, baseline known', () => {
  for (const third of [false, true])
    it(`should tell rows of the signature table apart by ${third ? 'three gauges' : 'two gauges'}`, () => {
      const { wins, pools, questioned } = matrix(third);
      const share = (truth: Effect, other: Effect): number => (wins.get(`${truth}>${other}`) ?? 0) / pools;
      print(
        `true (row) above other (column, same order), % of ${pools} pools, ${questioned} questioned`,
        share,
      );
      const short = SHOWN_EFFECTS.flatMap((truth) =>
        SHOWN_EFFECTS.filter((other) => ROW[truth] !== ROW[other] && share(truth, other) < ENOUGH).map(
          (other) => `${truth} over ${other} ${(100 * share(truth, other)).toFixed(0)} %`,
        ),
      );
      console.log(`pairs under 95 %: ${short.length}\n${short.join('\n')}`);
      expect(questioned).toBeLessThan(POOLS / 20);
    });
});
