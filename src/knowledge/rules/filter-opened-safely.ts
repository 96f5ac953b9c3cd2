/** A step that opens the filter has its pressure let go first and carries filter-pressure. */
import type { CheckId, FaultId } from '../ids.ts';
import type { Breach, Rule } from './breach.ts';
import { carries, stepsOf } from './breach.ts';

/** Steps that open or clean the filter, by the id of the check or of the fault repaired. */
const OPENS_FILTER: readonly (CheckId | FaultId)[] = [
  'filter-clean-response',
  'filter-internals-look',
  'filter-dirty',
  'filter-internals-torn',
  'filter-media-spent',
  'gauge-stuck',
];

export const filterOpenedSafely: Rule = (trade) =>
  stepsOf(trade)
    .filter(({ id }) => OPENS_FILTER.some((opens) => opens === id))
    .flatMap(({ path, step }): Breach[] => {
      const isReleased = step.needs.pressure === 'released';
      if (isReleased && carries(step, 'filter-pressure')) return [];
      return [
        {
          path,
          message: isReleased
            ? 'opens the filter without filter-pressure'
            : 'opens the filter under pressure',
          tip: 'Let it need the pressure released and carry filter-pressure.',
        },
      ];
    });
