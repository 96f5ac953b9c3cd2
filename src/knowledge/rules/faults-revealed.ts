/** No fault stays in the dark: some check that a technician may be led through tells of it. */
import type { Check } from '../schema.ts';
import type { Rule } from './breach.ts';
import { tellsOf } from './telling.ts';

const HIGHEST_CLASS = 3;

function isPermitted(check: Check): boolean {
  return check.class <= HIGHEST_CLASS;
}

export const faultsRevealed: Rule = ({ checks, faults }) =>
  faults
    .filter((fault) => !checks.some((check) => isPermitted(check) && tellsOf(check, fault)))
    .map(({ id }) => ({
      path: `faults.${id}`,
      message: 'no permitted check tells of it',
      tip: 'Give it a row in a check of class 3 or lower that fits the same pools.',
    }));
