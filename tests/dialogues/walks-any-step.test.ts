import { expect, it, vi } from 'vitest';
import type { Case } from '../../src/engine/case.ts';
import type { Plan } from '../../src/engine/plan.ts';
import { takeWalks } from './walk.ts';

/**
 * Instead of the best step any permitted one, drawn from what was said so far: safety must not hang on the planner's
 * good sense, and this way many more orders of steps are walked than it would ever choose.
 */
vi.mock('../../src/engine/plan.ts', async () => {
  const { situationOf } = await import('../../src/engine/situation.ts');
  const drawn = (oneCase: Case): number => {
    const said = JSON.stringify([oneCase.setting.complaint, oneCase.events]);
    return Buffer.from(said).reduce((hash, byte) => (Math.imul(hash, 31) + byte) >>> 0, 7);
  };
  const planOf = (oneCase: Case): Plan => {
    const { checks, faults } = situationOf(oneCase);
    const draw = drawn(oneCase);
    const place = Math.floor(draw / 32) % Math.max(1, checks.length + faults.length);
    const check = checks[place];
    const fault = faults[place - checks.length];
    if (draw % 32 === 0) return { kind: 'hand-off' };
    if (check !== undefined) return { kind: 'check', check: check.id, minutes: 1, saving: 1 };
    return fault === undefined
      ? { kind: 'hand-off' }
      : { kind: 'repair', fault: fault.id, minutes: 1, saving: 1 };
  };
  return { planOf };
});

it('should be safe whatever permitted step comes next', { timeout: 1_800_000 }, () => {
  takeWalks(100_000, 20_260_403);
  expect.hasAssertions();
});
