/** A step at a breaker, clock or outlet carries electric-water, or is done with the power locked off. */
import type { CheckId, Place } from '../ids.ts';
import type { Rule, SafeStep } from './breach.ts';
import { carries, stepsOf } from './breach.ts';

const AT_THE_SUPPLY: readonly Place[] = ['electrics', 'outlet'];
const CHECKS_AT_THE_SUPPLY: readonly CheckId[] = ['pump-schedule', 'outlet-test', 'motor-electrical'];

function isAtSupply({ id, place }: SafeStep): boolean {
  return (
    CHECKS_AT_THE_SUPPLY.some((check) => check === id) ||
    (place !== undefined && AT_THE_SUPPLY.includes(place))
  );
}

export const electricsCautioned: Rule = (trade) =>
  stepsOf(trade)
    .filter((step) => isAtSupply(step) && !carries(step.step, 'electric-water', 'power-lockout'))
    .map(({ path }) => ({
      path,
      message: 'works at the supply without electric-water',
      tip: 'Add electric-water, or power-lockout for work behind a cover.',
    }));
