/** What confirmed causes teach of the next case. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Confirmed } from '../../src/engine/learning.ts';
import {
  fadedCounts,
  FLOOR,
  HALF_LIFE_MS,
  learntFactors,
  movedByHistory,
  SAMPLE_SIZE,
} from '../../src/engine/learning.ts';
import type { FaultId } from '../../src/knowledge/ids.ts';

const SAND = { cleaner: 'suction', filter: 'sand' } as const;
const NOW = Date.UTC(2026, 3, 1);
const SHARES = new Map<FaultId, number>([
  ['filter-dirty', 0.5],
  ['lid-oring-worn', 0.3],
  ['motor-worn', 0.2],
]);

function cases(fault: FaultId, count: number, at = NOW): Confirmed[] {
  return Array.from({ length: count }, () => ({ fault, equipment: SAND, at }));
}

describe('learning from confirmed causes', () => {
  it('should leave the table as it is without a case', () => {
    const factors = learntFactors(SHARES, fadedCounts([], SAND, NOW));
    for (const factor of factors.values()) expect(factor).toBeCloseTo(1, 12);
  });

  it('should raise what was confirmed, and lower the rest by no more than the cases are worth', () => {
    const factors = learntFactors(SHARES, fadedCounts(cases('lid-oring-worn', 20), SAND, NOW));
    const learnt = (0.3 * SAMPLE_SIZE + 20) / (SAMPLE_SIZE + 20);
    expect(factors.get('lid-oring-worn')).toBeCloseTo(learnt / 0.3, 12);
    expect(factors.get('filter-dirty')).toBeCloseTo(SAMPLE_SIZE / (SAMPLE_SIZE + 20), 12);
  });

  it('should learn nothing from another class of equipment', () => {
    const elsewhere = cases('lid-oring-worn', 50);
    const counts = fadedCounts(elsewhere, { cleaner: 'robotic', filter: 'sand' }, NOW);
    expect(counts.size).toBe(0);
  });

  it('should count a case half after the half-life', () => {
    const counts = fadedCounts(cases('motor-worn', 8, NOW - HALF_LIFE_MS), SAND, NOW);
    expect(counts.get('motor-worn')).toBeCloseTo(4, 12);
  });

  it('should never learn a fault away', () => {
    fc.assert(
      fc.property(fc.nat(5000), (count) => {
        const factors = learntFactors(SHARES, fadedCounts(cases('filter-dirty', count), SAND, NOW));
        expect(Math.min(...factors.values())).toBeGreaterThanOrEqual(FLOOR);
      }),
      { numRuns: 50, seed: 20_260_405 },
    );
  });

  it('should say which way history moved a suspicion, where it did by much', () => {
    expect(movedByHistory(1.5)).toBe('raised');
    expect(movedByHistory(1.1)).toBeUndefined();
    expect(movedByHistory(0.9)).toBeUndefined();
    expect(movedByHistory(0.5)).toBe('lowered');
  });
});
