/** A hand in the pool or on the hose is guarded against open suction, and the person against falling in. */
import type { Place } from '../ids.ts';
import type { Breach, Rule, SafeStep } from './breach.ts';
import { carries, stepsOf } from './breach.ts';

/** Where a repair of class 1 is done with the hands in or over the water. */
const IN_THE_POOL: readonly Place[] = ['cleaner', 'hose', 'canister', 'skimmer', 'port', 'wall-fitting'];
const HANDS_IN_WATER = 1;

function isWet({ kind, step, place }: SafeStep): boolean {
  if (carries(step, 'drowning') || step.needs.hose === 'out') return true;
  if (step.class !== HANDS_IN_WATER) return false;
  return kind === 'check' || (place !== undefined && IN_THE_POOL.includes(place));
}

export const wetHandsGuarded: Rule = (trade) =>
  stepsOf(trade)
    .filter(isWet)
    .flatMap(({ path, step }): Breach[] => [
      ...(carries(step, 'suction-entrapment', 'pump-off', 'robot-unplug')
        ? []
        : [
            {
              path,
              message: 'puts hands in the water without suction-entrapment or pump-off',
              tip: 'Add suction-entrapment, or have the pump switched off first.',
            },
          ]),
      ...(carries(step, 'drowning')
        ? []
        : [{ path, message: 'leans over the water without drowning', tip: 'Add the caution drowning.' }]),
    ]);
