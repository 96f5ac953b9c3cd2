/** Every step that can hurt somebody is preceded by a caution, and licensed work by the word that it is licensed. */
import type { Breach, Rule } from './breach.ts';
import { carries, stepsOf } from './breach.ts';

const CAUTION_FROM_CLASS = 2;
const LICENSED_CLASS = 4;

export const hazardsCautioned: Rule = (trade) =>
  stepsOf(trade).flatMap(({ path, step }): Breach[] => {
    if (step.class === LICENSED_CLASS && !carries(step, 'local-code'))
      return [{ path, message: 'is licensed work without local-code', tip: 'Add the caution local-code.' }];
    if (step.class < CAUTION_FROM_CLASS || step.cautions.some(({ when }) => when === undefined)) return [];
    const message = `is of class ${step.class} and carries no caution`;
    return [{ path, message, tip: 'Add the caution for what can go wrong in it.' }];
  });
