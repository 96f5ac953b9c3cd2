/** Answers that hardly fit are asked again, once, and the later one counts. */
import { describe, expect, it } from 'vitest';
import { beliefOf } from '../../src/engine/belief.ts';
import type { Case, CaseEvent } from '../../src/engine/case.ts';
import { reasonFor } from '../../src/engine/explain.ts';
import { planOf } from '../../src/engine/plan.ts';
import { answerToAskAgain, surprises } from '../../src/engine/surprise.ts';
import { reasonText } from '../../src/dialogues/reason.ts';
import { answer, plainCase, retired } from './plain-case.ts';

function caseWith(...events: CaseEvent[]): Case {
  const equipment = {
    cleaner: 'suction',
    connection: 'skimmer',
    canister: 'no',
    pump: 'single-speed',
    filter: 'sand',
    multiport: 'no',
  } as const;
  return plainCase({ complaint: 'not-moving', equipment }, ...events);
}

/** The pump is silent, yet the water comes back strongly and the hose pulls. */
const CONTRADICTION = [
  answer('return-flow', 'strong'),
  answer('hose-hand-feel', 'strong'),
  answer('pump-lid-look', 'full'),
  answer('pump-running', 'silent'),
];

describe('an answer that hardly fits the rest', () => {
  it('should be found, and be the one whose withdrawal explains most', () => {
    const oneCase = caseWith(...CONTRADICTION);
    const again = answerToAskAgain(oneCase);
    expect(again?.check).toBe('pump-running');
    expect(again?.expected).toBe('running');
    const ratios = surprises(oneCase).map(({ ratio }) => ratio);
    expect(ratios).toEqual([...ratios].sort((a, b) => a - b));
  });

  it('should be asked again by the planner, with its reason', () => {
    const oneCase = caseWith(...CONTRADICTION);
    const plan = planOf(oneCase);
    expect(plan).toMatchObject({ kind: 'check', check: 'pump-running' });
    if (plan.kind !== 'check') return;
    expect(reasonFor(plan, oneCase)).toEqual({ key: 'again' });
  });

  it('should not be asked a third time', () => {
    const twice = caseWith(...CONTRADICTION, answer('pump-running', 'silent'));
    expect(answerToAskAgain(twice)?.check).not.toBe('pump-running');
    expect(planOf(twice)).not.toMatchObject({ check: 'pump-running' });
  });

  it('should no longer count once it was answered otherwise, or the person is no longer sure', () => {
    const [flow, feel, lid] = CONTRADICTION;
    const without = beliefOf(caseWith(flow!, feel!, lid!));
    const running = beliefOf(caseWith(flow!, feel!, lid!, answer('pump-running', 'running')));
    const corrected = beliefOf(caseWith(...CONTRADICTION, answer('pump-running', 'running')));
    corrected.forEach((p, suspect) => expect(p).toBeCloseTo(running[suspect]!, 12));
    const withdrawn = beliefOf(caseWith(...CONTRADICTION, retired('pump-running', 'unsure')));
    withdrawn.forEach((p, suspect) => expect(p).toBeCloseTo(without[suspect]!, 12));
  });

  it('should not be found where all fits', () => {
    expect(answerToAskAgain(caseWith(...CONTRADICTION.slice(0, 3)))).toBeUndefined();
  });
});

describe('the reason for a step', () => {
  it('should count what a look can rule out among the likely causes', () => {
    const oneCase = caseWith();
    const plan = planOf(oneCase);
    if (plan.kind === 'hand-off') throw new Error('handed on without a look');
    const reason = reasonFor(plan, oneCase);
    expect(reason.key).toBe('rules-out');
    if (reason.key !== 'rules-out') return;
    expect(reason.out).toBeGreaterThan(0);
    expect(reason.out).toBeLessThanOrEqual(reason.likely);
    const { out, likely, minutes } = reason;
    expect(reasonText(reason)).toEqual({ key: 'dialogue:reason.rules-out', facts: { out, likely, minutes } });
  });

  it('should tell the likeliest repair from one that is only quick', () => {
    const oneCase = caseWith(answer('skimmer-look', 'basket-full'));
    expect(reasonFor({ kind: 'repair', fault: 'skimmer-basket-full' }, oneCase).key).toBe('likeliest');
    expect(reasonFor({ kind: 'repair', fault: 'canister-seal-leak' }, oneCase).key).toBe('quick-to-try');
  });
});
