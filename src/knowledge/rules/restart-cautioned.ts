/** A step that ends with the pump running again carries restart-swimmers. */
import type { Rule } from './breach.ts';
import { carries, stepsOf } from './breach.ts';

export const restartCautioned: Rule = (trade) =>
  stepsOf(trade)
    .filter(({ step }) => step.leaves.pump === 'running' && !carries(step, 'restart-swimmers'))
    .map(({ path }) => ({
      path,
      message: 'restarts the pump without restart-swimmers',
      tip: 'Add the caution restart-swimmers.',
    }));
