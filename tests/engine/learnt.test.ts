/** What a company confirmed moves the priors of its later cases, is part of what is kept, and is named. */
import { describe, expect, it } from 'vitest';
import type { Setting } from '../../src/engine/case.ts';
import { suspectsOf } from '../../src/engine/belief.ts';
import { explained } from '../../src/engine/explain.ts';
import { fadedCounts, learntFactors } from '../../src/engine/learning.ts';
import { modelOf, tableShares } from '../../src/engine/model.ts';
import type { FaultId, SuspectId } from '../../src/knowledge/ids.ts';
import { FAULT_IDS } from '../../src/knowledge/ids.ts';
import { plainCase } from './plain-case.ts';

const EQUIPMENT = { cleaner: 'suction', filter: 'sand' } as const;
const NOW = Date.UTC(2030, 5, 1);
const PLAIN = plainCase({ complaint: 'not-moving', equipment: EQUIPMENT }).setting;

function learntFrom(fault: FaultId, count: number): Setting {
  const confirmed = Array.from({ length: count }, () => ({ fault, equipment: EQUIPMENT, at: NOW }));
  const factors = learntFactors(tableShares(EQUIPMENT), fadedCounts(confirmed, EQUIPMENT, NOW));
  return { ...PLAIN, learnt: Object.fromEntries(factors) };
}

function pOf(fault: SuspectId, setting: Setting): number {
  return suspectsOf({ setting, events: [] }, FAULT_IDS.length + 1).find((one) => one.fault === fault)?.p ?? 0;
}

describe('causes that a company confirmed', () => {
  it('should start from shares of the table that sum to one', () => {
    const sum = [...tableShares(EQUIPMENT).values()].reduce((all, share) => all + share, 0);
    expect(sum).toBeCloseTo(1, 12);
  });

  it('should raise what was found often and lower the rest, and leave a company without cases as it was', () => {
    const learnt = learntFrom('hose-split', 20);
    expect(pOf('hose-split', learnt)).toBeGreaterThan(2 * pOf('hose-split', PLAIN));
    expect(pOf('filter-dirty', learnt)).toBeLessThan(pOf('filter-dirty', PLAIN));
    expect(pOf('hose-split', learntFrom('hose-split', 0))).toBeCloseTo(pOf('hose-split', PLAIN), 12);
  });

  it('should move the odds of two suspects by exactly the ratio of their factors', () => {
    const learnt = learntFrom('hose-split', 10);
    const odds = (setting: Setting): number => pOf('hose-split', setting) / pOf('filter-dirty', setting);
    const ratio = (learnt.learnt?.['hose-split'] ?? 0) / (learnt.learnt?.['filter-dirty'] ?? 1);
    expect(odds(learnt) / odds(PLAIN)).toBeCloseTo(ratio, 9);
  });

  it('should never learn a fault away', () => {
    const learnt = learntFrom('hose-split', 100_000);
    for (const fault of modelOf(PLAIN).suspects) expect(pOf(fault, learnt), fault).toBeGreaterThan(0);
  });

  it('should not be taken for a case of another company', () => {
    expect(modelOf(learntFrom('hose-split', 5))).not.toBe(modelOf(PLAIN));
    expect(modelOf(learntFrom('hose-split', 5))).toBe(modelOf(learntFrom('hose-split', 5)));
  });

  it('should say that history moved a suspicion where it did so enough, and which way', () => {
    const movedIn = (setting: Setting): Map<SuspectId, string | undefined> =>
      new Map(explained({ setting, events: [] }, 60).map(({ fault, byCompany }) => [fault, byCompany]));
    const many = movedIn(learntFrom('hose-split', 40));
    expect(many.get('hose-split')).toBe('raised');
    expect(many.get('filter-dirty')).toBe('lowered');
    expect([...movedIn(PLAIN).values()].every((way) => way === undefined)).toBe(true);
  });
});
