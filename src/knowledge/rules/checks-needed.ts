/** No check that no fault needs: some fault moves its outcomes clearly. */
import type { Rule } from './breach.ts';
import { tellsOf } from './telling.ts';

export const checksNeeded: Rule = ({ checks, faults }) =>
  checks
    .filter((check) => !faults.some((fault) => tellsOf(check, fault)))
    .map(({ id }) => ({
      path: `checks.${id}`,
      message: 'no fault changes its answer clearly',
      tip: 'Give the row of a fault that it tells of, or remove the check.',
    }));
