/** A step put a second time: what the person was not sure of, and what a look denied before it is repaired all the same. */
import { describe, expect, it } from 'vitest';
import { patients } from '../../bench/diagnosis/compare.ts';
import { play } from '../../bench/diagnosis/play.ts';
import { POLICIES } from '../../bench/diagnosis/policies.ts';
import type { Case, CaseEvent } from '../../src/engine/case.ts';
import { reasonFor } from '../../src/engine/explain.ts';
import { modelOf } from '../../src/engine/model.ts';
import type { Plan } from '../../src/engine/plan.ts';
import { planOf } from '../../src/engine/plan.ts';
import { REVEALED_BY } from '../../src/engine/revealing.ts';
import { putTwice, secondLooks } from '../../src/engine/second-look.ts';
import { foundNormal } from '../../src/engine/situation.ts';
import type { CheckId } from '../../src/knowledge/ids.ts';
import { answer, plainCase, retired } from './plain-case.ts';

const POOL = {
  complaint: 'not-moving',
  equipment: { cleaner: 'suction', connection: 'skimmer', pump: 'single-speed', filter: 'sand' },
} as const;

interface Put {
  check: CheckId;
  before: Case;
}

/** Leads a case in which no check is answered and no repair helps, and tells which checks were put, in order. */
function ledBlind(why: 'unsure' | 'skip'): Put[] {
  const events: CaseEvent[] = [];
  const put: Put[] = [];
  for (;;) {
    const plan: Plan = planOf(plainCase(POOL, ...events));
    if (plan.kind === 'hand-off') return put;
    if (plan.kind === 'check') put.push({ check: plan.check, before: plainCase(POOL, ...events) });
    events.push(
      plan.kind === 'check'
        ? retired(plan.check, why)
        : { kind: 'repair', fault: plan.fault, result: 'cannot', at: 0 },
    );
  }
}

const times = (put: readonly Put[], check: CheckId): number =>
  put.filter((one) => one.check === check).length;

describe('what the person was not sure of', () => {
  const put = ledBlind('unsure');

  it('should be put once more where the case would be handed on, and never a third time', () => {
    const second = put.findIndex(({ check, before }) => before.events.some((e) => isOf(e, check)));
    expect(second).toBeGreaterThan(0);
    // From there on nothing new is asked: all else had its turn first.
    for (const { check } of put.slice(second)) expect(times(put, check)).toBe(2);
    for (const { check } of put) expect(times(put, check)).toBeLessThanOrEqual(2);
  });

  it('should say that this is why', () => {
    const { check, before } = put.at(-1)!;
    expect(reasonFor({ kind: 'check', check }, before)).toEqual({ key: 'unsure-before' });
  });

  // A gauge of which the person was not sure was once asked for without end, as its reading was no answer.
  it('should not be put a third time where it is a gauge that was read the second time', () => {
    const reading: CaseEvent = { kind: 'reading', check: 'filter-pressure', value: 90_000, said: '', at: 0 };
    const unsure = retired('filter-pressure', 'unsure');
    const { setting, events } = plainCase(POOL, unsure, reading);
    const model = modelOf(setting);
    expect(secondLooks(events, model).map(({ check }) => check.id)).toEqual([]);
    expect(secondLooks([unsure], model).map(({ check }) => check.id)).toEqual(['filter-pressure']);
  });

  it('should be let be where the person chose to skip it', () => {
    const skipped = ledBlind('skip');
    for (const { check } of skipped) expect(times(skipped, check)).toBe(1);
  });
});

function isOf(event: CaseEvent, check: CheckId): boolean {
  return event.kind === 'retired' && event.check === check;
}

describe('a look that denied a fault', () => {
  it('should come once more before the fault is repaired all the same', () => {
    let repairs = 0;
    let after = 0;
    for (const patient of patients('prior', 60))
      play(patient, (oneCase, model, spent) => {
        const step = POLICIES.padside(oneCase, model, spent);
        if (step?.kind !== 'repair') return step;
        const normal = foundNormal(oneCase.events);
        const twice = putTwice(oneCase.events);
        const denying = (REVEALED_BY.get(step.fault) ?? []).filter((id) => normal.has(id));
        repairs += 1;
        after += denying.length > 0 ? 1 : 0;
        expect(denying.filter((id) => !twice.has(id))).toEqual([]);
        return step;
      });
    expect(repairs).toBeGreaterThan(60);
    expect(after).toBeGreaterThan(0);
  });

  it('should say that little else is left', () => {
    const looked = plainCase(POOL, answer('skimmer-look', 'normal'));
    expect(reasonFor({ kind: 'check', check: 'skimmer-look' }, looked)).toEqual({ key: 'little-left' });
  });
});
