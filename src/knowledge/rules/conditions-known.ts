/** Every condition on the equipment names values that a pool can have. */
import type { When } from '../schema.ts';
import { EQUIPMENT, EQUIPMENT_KEYS } from '../schema.ts';
import type { Breach, Rule } from './breach.ts';
import { stepsOf } from './breach.ts';

function unknownValues(path: string, when: When): Breach[] {
  return EQUIPMENT_KEYS.flatMap((key) => {
    const known: readonly string[] = EQUIPMENT[key];
    return (when[key] ?? [])
      .filter((value) => !known.includes(value))
      .map((value) => ({
        path: `${path}.when.${key}`,
        message: `no pool has the ${key} "${value}"`,
        tip: `Use one of ${known.join(', ')}.`,
      }));
  });
}

export const conditionsKnown: Rule = (trade) => [
  ...trade.faults.flatMap(({ id, when }) => unknownValues(`faults.${id}`, when)),
  ...trade.checks.flatMap(({ id, when }) => unknownValues(`checks.${id}`, when)),
  ...trade.complaints.flatMap(({ id, when }) => unknownValues(`complaints.${id}`, when)),
  ...stepsOf(trade).flatMap(({ path, step }) =>
    step.cautions.flatMap(({ id, when }) => unknownValues(`${path}.cautions.${id}`, when ?? {})),
  ),
];
