/** How long one decision takes. */
import type { Case } from '../../src/engine/case.ts';
import { modelOf } from '../../src/engine/model.ts';
import { planOf } from '../../src/engine/plan.ts';
import { patients } from './compare.ts';
import { play } from './play.ts';
import { POLICIES } from './policies.ts';

/** Every state that some cases pass through. */
function states(count: number): Case[] {
  return patients('uniform', count).flatMap((patient) => {
    const seen: Case[] = [];
    play(patient, (oneCase, model, spent) => {
      seen.push({ ...oneCase, events: [...oneCase.events] });
      return POLICIES.padside(oneCase, model, spent);
    });
    return seen;
  });
}

/** Milliseconds of a decision: least, median, 99 % and most over the states, each the quickest of a few tries. */
export function decisionTimes(count: number): {
  states: number;
  min: number;
  median: number;
  p99: number;
  most: number;
} {
  const all = states(count);
  const times = all
    .map((oneCase) => {
      const model = modelOf(oneCase.setting);
      const tries = [0, 1, 2].map(() => {
        const from = performance.now();
        planOf(oneCase, model);
        return performance.now() - from;
      });
      return Math.min(...tries);
    })
    .sort((a, b) => a - b);
  const at = (share: number): number => times[Math.floor(share * (times.length - 1))]!;
  return { states: all.length, min: at(0), median: at(0.5), p99: at(0.99), most: at(1) };
}
