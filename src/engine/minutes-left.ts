/** About how long a case still takes the person. */
import { entropyBits } from '../calc/belief.ts';
import { beliefOf } from './belief.ts';
import type { Case } from './case.ts';
import { modelOf } from './model.ts';
import { mayRepair } from './situation.ts';

/**
 * Minutes for each bit of doubt, and for each minute that the expected repair takes. Fitted by least squares to what
 * simulated cases still took where 3 % of the answers were wrong and 5 % unsure; `npm run bench:diagnosis` prints the
 * fit for people who go wrong and are unsure more often.
 */
const PER_BIT = 6;
const PER_REPAIR_MINUTE = 1.5;

/** Minutes of repair to be expected of a person in this case, Σ p × minutes over the faults that they may repair. */
export function expectedRepairMinutes(oneCase: Case, belief: readonly number[]): number {
  const { faults } = modelOf(oneCase.setting);
  return faults.reduce((sum, fault, suspect) => {
    const mine = fault !== undefined && mayRepair(fault, oneCase.setting.role);
    return mine ? sum + (belief[suspect] ?? 0) * fault.repair.minutes : sum;
  }, 0);
}

/** Expected minutes of the person's own time to the end, waiting for a visitor not counted. A rough guide. */
export function minutesLeft(oneCase: Case, belief: readonly number[] = beliefOf(oneCase)): number {
  return PER_BIT * entropyBits(belief) + PER_REPAIR_MINUTE * expectedRepairMinutes(oneCase, belief);
}
