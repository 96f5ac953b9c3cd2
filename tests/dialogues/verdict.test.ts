import { describe, expect, it } from 'vitest';
import { PA_PER_INHG, PA_PER_PSI } from '../../src/calc/units.ts';
import type { PoolRecord, Reading } from '../../src/dialogues/record.ts';
import { filterTrend } from '../../src/dialogues/trend.ts';
import { verdictOn } from '../../src/dialogues/verdict.ts';
import { estimatesOf } from '../../src/dialogues/estimates.ts';
import type { Quantity } from '../../src/knowledge/ids.ts';
import { words } from '../../src/language/render.ts';

const A_DAY = 24 * 60 * 60 * 1000;
const NOW = Date.UTC(2026, 5, 1);

function reading(quantity: Quantity, value: number, clean: boolean, daysAgo: number): Reading {
  return { quantity, value, said: '', clean, at: NOW - daysAgo * A_DAY };
}

function pool(...readings: Reading[]): PoolRecord {
  const equipment = {
    cleaner: 'suction',
    connection: 'port',
    pump: 'single-speed',
    filter: 'cartridge',
  } as const;
  return { id: 'p', name: '', equipment, figures: {}, missing: [], readings, cases: [] };
}

const CLEAN = [
  reading('filter-pressure', 13 * PA_PER_PSI, true, 30),
  reading('pump-vacuum', 7 * PA_PER_INHG, true, 30),
];

function said(psi: number, inHg: number): string {
  const gauges = { 'filter-pressure': psi * PA_PER_PSI, 'pump-vacuum': inHg * PA_PER_INHG };
  return verdictOn(gauges, pool(...CLEAN))
    .map((line) => words(line, 'en'))
    .join(' ');
}

describe('verdict on readings', () => {
  // Which way the gauges move: common practice, no source.
  it('should place the block after the pump where pressure rose and vacuum fell', () => {
    expect(said(22, 4)).toContain("22 psi: that is 9 psi over this pool's clean 13 psi");
    expect(said(22, 4)).toContain('the block is after the pump');
  });
  it('should place the block before the pump where vacuum rose and pressure fell', () => {
    expect(said(9, 17)).toContain('the block is before the pump');
  });
  it('should say that no water moves where both gauges stand at nothing', () => {
    expect(said(0, 0)).toContain('no water moves');
  });
  it('should blame nothing where both gauges stand as when clean', () => {
    expect(said(13, 7)).not.toContain('So ');
  });
});

describe('trend of the filter', () => {
  const clean = reading('filter-pressure', 12 * PA_PER_PSI, true, 20);
  const rising = [12.5, 13.1, 13.4, 14].map((psi, week) =>
    reading('filter-pressure', psi * PA_PER_PSI, false, 16 - 5 * week),
  );
  it('should foretell the day of the next clean with its range', () => {
    expect(filterTrend(pool(clean, ...rising)).map(({ key }) => key)).toEqual(['dialogue:trend.forecast']);
  });
  it('should ask for more readings where there are too few', () => {
    expect(filterTrend(pool(clean)).map(({ key }) => key)).toEqual(['dialogue:trend.too-few']);
  });
  it('should warn where the clean pressure itself creeps up', () => {
    const cleans = [10, 11.5, 13, 14.5].map((psi, season) =>
      reading('filter-pressure', psi * PA_PER_PSI, true, 300 - 90 * season),
    );
    expect(filterTrend(pool(...cleans)).map(({ key }) => key)).toContain('dialogue:trend.creeps');
  });
});

describe('estimates for a technician', () => {
  it('should give flow, head and what a clean filter would bring', () => {
    const now = [
      reading('filter-pressure', 22 * PA_PER_PSI, false, 0),
      reading('pump-vacuum', 4 * PA_PER_INHG, false, 0),
    ];
    const lines = estimatesOf(pool(...CLEAN, ...now), NOW).text.map((line) => words(line, 'en'));
    expect(lines.join('\n')).toMatch(
      /Flow \d+ gpm[^]*Total dynamic head[^]*Suction velocity[^]*With a clean filter/,
    );
  });
});
