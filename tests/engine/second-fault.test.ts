/** A fault that was found and put right, and still the cleaner does not run. */
import { describe, expect, it } from 'vitest';
import { beliefOf } from '../../src/engine/belief.ts';
import type { Case, CaseEvent } from '../../src/engine/case.ts';
import { modelOf } from '../../src/engine/model.ts';
import { planOf } from '../../src/engine/plan.ts';
import { withoutExplained } from '../../src/engine/second-fault.ts';
import { situationOf } from '../../src/engine/situation.ts';
import type { FaultId } from '../../src/knowledge/ids.ts';
import { answer, notYet, plainCase } from './plain-case.ts';

function caseWith(...events: CaseEvent[]): Case {
  const equipment = { cleaner: 'suction', connection: 'port', pump: 'single-speed', filter: 'sand' } as const;
  return plainCase({ complaint: 'not-moving', equipment }, ...events);
}

const VACUUM: CaseEvent = { kind: 'reading', check: 'pump-vacuum', value: 40_000, said: '12 inHg', at: 0 };
const FOUND = [answer('return-flow', 'weak'), VACUUM, answer('skimmer-look', 'basket-full')];

function beliefIn(oneCase: Case, fault: FaultId): number {
  return beliefOf(oneCase)[modelOf(oneCase.setting).suspects.indexOf(fault)] ?? 0;
}

describe('a second fault behind the first', () => {
  const before = caseWith(...FOUND);
  const after = caseWith(...FOUND, notYet('skimmer-basket-full'));

  it('should no longer be hidden by what the first one explained', () => {
    expect(beliefIn(before, 'skimmer-basket-full')).toBeGreaterThan(0.5);
    expect(beliefIn(after, 'skimmer-basket-full')).toBeLessThan(0.05);
    expect(withoutExplained(after.events, modelOf(after.setting))).toEqual([notYet('skimmer-basket-full')]);
  });

  it('should have readings taken anew and answers that may have changed asked once more', () => {
    const open = situationOf(after).checks.map(({ id }) => id);
    expect(open).toEqual(expect.arrayContaining(['pump-vacuum', 'return-flow', 'skimmer-look']));
    const again = caseWith(...after.events, answer('return-flow', 'strong'));
    expect(situationOf(again).checks.map(({ id }) => id)).not.toContain('return-flow');
  });

  it('should be sought on, not handed on at once', () => {
    expect(planOf(after).kind).not.toBe('hand-off');
  });

  it('should leave the evidence as it is where the first one was only tried, not found', () => {
    const blind = caseWith(answer('return-flow', 'weak'), VACUUM, notYet('skimmer-basket-full'));
    expect(withoutExplained(blind.events, modelOf(blind.setting))).toEqual(blind.events);
  });

  it('should come out the same whichever way round the evidence came', () => {
    const turned = caseWith(...[...FOUND].reverse(), notYet('skimmer-basket-full'));
    beliefOf(after).forEach((p, suspect) => expect(beliefOf(turned)[suspect]).toBeCloseTo(p, 12));
  });
});
