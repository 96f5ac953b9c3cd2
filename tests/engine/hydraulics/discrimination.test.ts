import { describe, expect, it } from 'vitest';
import { calibrate } from '../../../src/engine/hydraulics/calibrate.ts';
import { GAUGE_KEYS, type GaugeKey } from '../../../src/engine/hydraulics/gauge-error.ts';
import { effectLogLikelihoods, type Readings } from '../../../src/engine/hydraulics/likelihood.ts';
import { readSevere, SHOWN_EFFECTS, type SeverelyRead, type ShownEffect } from './simulated-fault.ts';
import { drawWorkingPool, laterDay, randomFrom, readGauges } from './simulated-pool.ts';

/** Which way filter pressure, pump vacuum and the cleaner's suction go (common practice, no source). */
const ROW: Partial<Record<ShownEffect, string>> = {
  'filter-blocked': 'up, down, down',
  'return-blocked': 'up, down, down',
  'suction-blocked': 'down, up, down',
  // A valve that shuts the cleaner off lies after the tester, as a full strainer does.
  'cleaner-branch-closed': 'down, up, down',
  'cleaner-branch-blocked': 'slightly down, up, up',
  'pump-curve-shrinks': 'down, down, down',
  'pump-speed-low': 'down, down, down',
  'air-at-pump': 'down and shaking, down, down',
  'air-in-hose': 'down and shaking, down, down',
  'cleaner-branch-bypassed': 'up, down, down, beside the cleaner',
  'filter-torn': 'down, slightly up, slightly up',
  'gauge-stuck': 'the gauge follows nothing',
};

const POOLS = 400;
const ENOUGH = 0.95;

/** Two of the three gauges, by the one left out. */
const PAIRS = GAUGE_KEYS.map((left) => GAUGE_KEYS.filter((gauge) => gauge !== left));

function nameOf(pair: readonly GaugeKey[]): string {
  return pair.map((gauge) => gauge.replace('Pa', '')).join(' and ');
}

function readBy(pair: readonly GaugeKey[], { needle, ...gauges }: SeverelyRead): Readings {
  return { needle, ...Object.fromEntries(pair.map((gauge) => [gauge, gauges[gauge]])) };
}

/** Share of pools in which the first effect is put above the second, by a pair of gauges. */
type Share = (truth: ShownEffect, other: ShownEffect) => number;

function sharesOf(): { shares: ReadonlyMap<readonly GaugeKey[], Share>; pools: number; questioned: number } {
  const random = randomFrom(20_260_301);
  const wins = new Map(PAIRS.map((pair) => [pair, new Map<string, number>()]));
  let pools = 0;
  for (let draw = 0; draw < POOLS; draw += 1) {
    const pool = drawWorkingPool(random);
    const calibration = calibrate(pool.equipment, [readGauges(pool, random)]);
    if (calibration.kind === 'questioned') continue;
    pools += 1;
    for (const truth of SHOWN_EFFECTS) {
      const read = readSevere(truth, laterDay(pool, random), random);
      for (const [pair, won] of wins) {
        const logs = effectLogLikelihoods(calibration.model, readBy(pair, read));
        for (const other of SHOWN_EFFECTS)
          if (logs[truth] > logs[other])
            won.set(`${truth}>${other}`, (won.get(`${truth}>${other}`) ?? 0) + 1);
      }
    }
  }
  const shares = new Map(
    [...wins].map(([pair, won]): [readonly GaugeKey[], Share] => [
      pair,
      (truth, other) => (won.get(`${truth}>${other}`) ?? 0) / pools,
    ]),
  );
  return { shares, pools, questioned: POOLS - pools };
}

function print(title: string, share: Share): void {
  const lines = SHOWN_EFFECTS.map((truth) => {
    const cells = SHOWN_EFFECTS.map((other) =>
      truth === other ? '    .' : (100 * share(truth, other)).toFixed(0).padStart(5),
    );
    return `${truth.padEnd(25)}${cells.join('')}`;
  });
  const head = SHOWN_EFFECTS.map((_, place) => String(place + 1).padStart(5)).join('');
  console.log([title, ' '.repeat(25) + head, ...lines].join('\n'));
}

describe('severe faults at pools of another mould, clean readings known and the needle watched', () => {
  const { shares, pools, questioned } = sharesOf();

  it('should hardly question clean readings of a pool that works', () => {
    expect(questioned).toBeLessThan(POOLS / 20);
  });

  it('should print how often each true effect is put above each other', () => {
    for (const [pair, share] of shares)
      print(`true (row) above other (column, same order) by ${nameOf(pair)}, % of ${pools} pools`, share);
    expect(shares.size).toBe(PAIRS.length);
  });

  const rows = Object.keys(ROW) as ShownEffect[];
  const different = rows.flatMap((one, place) =>
    rows.slice(place + 1).flatMap((other) => (ROW[one] === ROW[other] ? [] : [[one, other] as const])),
  );

  it.each(different)('should tell %s from %s by two gauges, whichever of the two it is', (one, other) => {
    const worse = (share: Share): number => Math.min(share(one, other), share(other, one));
    expect(Math.max(...[...shares.values()].map(worse))).toBeGreaterThanOrEqual(ENOUGH);
  });
});
