/** How well beliefs fitted: what is counted, and that nothing known later is used. */
import { describe, expect, it } from 'vitest';
import { calibrationOf } from '../../src/dialogues/calibration.ts';
import type { Judged } from '../../src/dialogues/calibration.ts';
import type { CaseRecord, PoolRecord } from '../../src/dialogues/record.ts';

const AT = Date.UTC(2030, 5, 1);
const record: CaseRecord = {
  id: 'case',
  complaint: 'moves-slowly',
  role: 'owner',
  openedAt: AT,
  closedAt: AT + 1,
  outcome: 'fixed',
  fault: 'canister-full',
  confirmed: { fault: 'canister-full', at: AT + 1 },
  events: [
    { kind: 'answer', check: 'canister-look', outcome: 'full', at: AT },
    { kind: 'repair', fault: 'canister-full', result: 'worked', at: AT },
  ],
};
const pool: PoolRecord = {
  id: 'pool',
  name: 'Laurel',
  equipment: { cleaner: 'suction', canister: 'yes' },
  figures: {},
  missing: [],
  readings: [],
  cases: [record],
};
const judged = (cause: Judged['cause']): Judged => ({ pool, record, cause });

describe('calibration', () => {
  it('should say nothing of no case', () => {
    expect(calibrationOf([])).toMatchObject({ cases: 0, right: 0, reliability: [] });
  });

  it('should be better where the belief fits than where it does not', () => {
    const fits = calibrationOf([judged('canister-full')]);
    const misses = calibrationOf([judged('hose-split')]);
    expect([fits.right, misses.right]).toEqual([1, 0]);
    expect(fits.brier).toBeLessThan(misses.brier);
    expect(fits.logLoss).toBeLessThan(misses.logLoss);
    expect(misses.brier).toBeLessThanOrEqual(2);
    const total = fits.reliability.reduce((sum, { count, happened }) => sum + count * happened, 0);
    expect(total).toBeCloseTo(1, 9);
  });

  it('should use nothing that was learnt afterwards, and not the cure itself', () => {
    const later: CaseRecord = { ...record, id: 'later', confirmed: { fault: 'hose-split', at: AT + 2 } };
    const wiser = { ...pool, cases: [record, later, { ...later, id: 'later-2' }] };
    const cured = { ...record, events: record.events.slice(0, 1) };
    const before = calibrationOf([judged('canister-full')]);
    expect(calibrationOf([{ pool: wiser, record, cause: 'canister-full' }])).toEqual(before);
    expect(calibrationOf([{ pool, record: cured, cause: 'canister-full' }])).toEqual(before);
    expect(before.logLoss).toBeGreaterThan(0.01);
  });
});
