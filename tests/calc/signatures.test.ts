/**
 * What each fault does to the three gauges, against the pool's own clean readings. The expected directions are
 * common practice, no source; the model must bring them out by itself for every pump, speed and filter.
 */
import { afterAll, describe, expect, it } from 'vitest';
import { restingGauges, type Gauges, type PoolLoop } from '../../src/calc/circulation.ts';
import { withHoseOff } from '../../src/calc/typical-loop.ts';
import { PA_PER_INHG, PA_PER_PSI, fromM3PerS } from '../../src/calc/units.ts';
import { POOLS, flowing } from './sample-pools.ts';

type Direction = 'up' | 'down' | 'up slightly' | 'down slightly';
interface Row {
  readonly fault: string;
  readonly change: (loop: PoolLoop) => PoolLoop;
  readonly pressure: Direction;
  readonly vacuum: Direction;
  readonly suction: Direction;
}

function filterTimes(loop: PoolLoop, linear: number, square: number): PoolLoop {
  return { ...loop, filter: { linear: loop.filter.linear * linear, square: loop.filter.square * square } };
}

const hoseTimes = (loop: PoolLoop, times: number): PoolLoop => ({
  ...loop,
  cleaner: { ...loop.cleaner, hoseLoss: loop.cleaner.hoseLoss * times },
});

/** A loose plate or a split hose lets in about as much as passes the cleaner. */
const bypassed = (loop: PoolLoop): PoolLoop => ({
  ...loop,
  cleaner: { ...loop.cleaner, bypassConductance: 1 / Math.sqrt(loop.cleaner.hoseLoss) },
});

const ALL_DOWN = { pressure: 'down', vacuum: 'down', suction: 'down' } as const;
const SHORT_CIRCUIT = { pressure: 'up', vacuum: 'down', suction: 'down' } as const;
const AFTER_GAUGE = { pressure: 'up', vacuum: 'down', suction: 'down' } as const;

const ROWS: readonly Row[] = [
  { fault: 'filter dirty', change: (loop) => filterTimes(loop, 12, 1), ...AFTER_GAUGE },
  {
    fault: 'return valve part closed',
    change: (loop) => ({ ...loop, returnLoss: loop.returnLoss * 3 }),
    ...AFTER_GAUGE,
  },
  {
    fault: 'strainer or common line blocked',
    change: (loop) => ({ ...loop, commonLoss: loop.commonLoss * 12 }),
    pressure: 'down',
    vacuum: 'up',
    suction: 'down',
  },
  {
    fault: 'cleaner, hose or canister blocked',
    change: (loop) => hoseTimes(loop, 4),
    pressure: 'down slightly',
    vacuum: 'up',
    suction: 'up',
  },
  {
    fault: 'impeller clogged',
    change: (loop) => ({ ...loop, pump: { ...loop.pump, impellerFactor: 0.5 } }),
    ...ALL_DOWN,
  },
  {
    fault: 'speed low',
    change: (loop) => ({ ...loop, pump: { ...loop.pump, speedRatio: loop.pump.speedRatio * 0.7 } }),
    ...ALL_DOWN,
  },
  {
    fault: 'air leak of 1 mm² before the pump',
    change: (loop) => ({ ...loop, leakAreaM2: 1e-6 }),
    ...ALL_DOWN,
  },
  {
    fault: 'other suction opened',
    change: (loop) => ({ ...loop, other: { ...loop.other, loss: loop.other.loss / 8 } }),
    ...SHORT_CIRCUIT,
  },
  { fault: 'plate unseated or hose split', change: bypassed, ...SHORT_CIRCUIT },
  { fault: 'hose off', change: withHoseOff, ...SHORT_CIRCUIT },
  {
    fault: 'filter torn',
    change: (loop) => filterTimes(loop, 0.1, 0.6),
    pressure: 'down',
    vacuum: 'up slightly',
    suction: 'up slightly',
  },
];

const GAUGES = {
  pressure: 'filterPressurePa',
  vacuum: 'pumpVacuumPa',
  suction: 'cleanerSuctionPa',
} as const satisfies Record<string, keyof Gauges>;
type GaugeName = keyof typeof GAUGES;

function relativeChange(loop: PoolLoop, row: Row, gauge: GaugeName): number {
  return flowing(row.change(loop))[GAUGES[gauge]] / flowing(loop)[GAUGES[gauge]] - 1;
}

/** A change smaller than this is no change: a tenth of a per cent of the clean reading. */
const NOTHING = 0.001;

function directionOf(change: number): string {
  return change > NOTHING ? 'up' : change < -NOTHING ? 'down' : 'no change';
}

const printed: string[] = [];
afterAll(() => {
  console.log(['', 'Signatures (smallest to largest change over all pools)', ...printed].join('\n'));
});

describe('a pool in good order', () => {
  it.each(POOLS.filter((pool) => pool.fullSpeed))('should read as such pools do: $name', ({ loop }) => {
    // Common practice, no source: clean filter 8 to 20 psi, vacuum 3 to 12 inHg; 40 to 85 gpm for 0.75 to 2 hp.
    const point = flowing(loop);
    expect(point.filterPressurePa / PA_PER_PSI).toBeGreaterThan(8);
    expect(point.filterPressurePa / PA_PER_PSI).toBeLessThan(20);
    expect(point.pumpVacuumPa / PA_PER_INHG).toBeGreaterThan(3);
    expect(point.pumpVacuumPa / PA_PER_INHG).toBeLessThan(12);
    expect(fromM3PerS(point.flowM3PerS, 'gpm')).toBeGreaterThan(40);
    expect(fromM3PerS(point.flowM3PerS, 'gpm')).toBeLessThan(85);
    expect(point.npshMarginM).toBeGreaterThan(1);
  });
});

describe('the signature of a fault', () => {
  it.each(ROWS)('should come out for every pump, speed and filter: $fault', (row) => {
    const cells: string[] = [row.fault.padEnd(36)];
    for (const gauge of ['pressure', 'vacuum', 'suction'] as const) {
      const changes = POOLS.map((pool) => relativeChange(pool.loop, row, gauge));
      const [expected] = row[gauge].split(' ');
      changes.forEach((change, index) => {
        expect(directionOf(change), `${gauge} of ${POOLS[index]!.name}`).toBe(expected);
      });
      const percents = changes.map((change) => Math.round(change * 1000) / 10).sort((a, b) => a - b);
      cells.push(`${gauge} ${row[gauge]} (${percents[0]!} to ${percents.at(-1)!} %)`.padEnd(44));
    }
    printed.push(cells.join(''));
  });

  it('should be slight on the filter, beside the vacuum, when the cleaner is blocked', () => {
    const row = ROWS.find((candidate) => candidate.fault.startsWith('cleaner'))!;
    for (const { loop, name } of POOLS) {
      const pressure = Math.abs(relativeChange(loop, row, 'pressure'));
      expect(pressure, name).toBeLessThan(Math.abs(relativeChange(loop, row, 'vacuum')) / 2.5);
    }
  });

  it('should be slight on the suction side, beside the filter, when the filter is torn', () => {
    const row = ROWS.find((candidate) => candidate.fault === 'filter torn')!;
    for (const { loop, name } of POOLS)
      for (const gauge of ['vacuum', 'suction'] as const)
        expect(relativeChange(loop, row, gauge), name).toBeLessThan(0.25);
  });

  it('should shake the needle, that is carry air, only with a leak', () => {
    for (const { loop } of POOLS)
      for (const row of ROWS) {
        const { airFraction } = flowing(row.change(loop));
        if (row.fault.startsWith('air leak')) expect(airFraction).toBeGreaterThan(0.02);
        else expect(airFraction).toBe(0);
      }
  });

  it('should show a stuck gauge when the pump stops: a sound one falls to zero', () => {
    for (const { loop } of POOLS) {
      expect(flowing(loop).filterPressurePa - restingGauges(loop).filterPressurePa).toBeGreaterThan(
        PA_PER_PSI,
      );
      expect(restingGauges(loop).filterPressurePa).toBe(0);
    }
  });

  it('should differ between a strainer and a cleaner that is blocked in the tester alone', () => {
    const [strainer, cleaner] = ['strainer', 'cleaner'].map((start) =>
      ROWS.find((row) => row.fault.startsWith(start))!,
    );
    for (const { loop } of POOLS) {
      expect(directionOf(relativeChange(loop, strainer!, 'vacuum'))).toBe('up');
      expect(directionOf(relativeChange(loop, cleaner!, 'vacuum'))).toBe('up');
      expect(directionOf(relativeChange(loop, strainer!, 'suction'))).not.toBe(
        directionOf(relativeChange(loop, cleaner!, 'suction')),
      );
    }
  });
});
