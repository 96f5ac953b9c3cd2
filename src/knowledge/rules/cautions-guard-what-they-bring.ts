/** A caution that brings the pad to a state lapses when that state changes: it guards what it brings. */
import type { CautionId } from '../ids.ts';
import type { Caution, Pad } from '../schema.ts';
import type { Breach, Rule } from './breach.ts';

/** The state that each of these cautions is there to bring. */
const BRINGS: Partial<Record<CautionId, { part: keyof Pad; value: string }>> = {
  'pump-off': { part: 'pump', value: 'off' },
  'filter-pressure': { part: 'pressure', value: 'released' },
  'power-lockout': { part: 'power', value: 'locked' },
  'robot-unplug': { part: 'robot', value: 'unplugged' },
  'restart-swimmers': { part: 'pump', value: 'running' },
};

function inconsistent({ id, guards, brings }: Caution): Breach[] {
  const own = BRINGS[id];
  if (own === undefined) {
    if (Object.keys(brings).length === 0) return [];
    const tip = 'Only a caution that has the person do something brings the pad to a state.';
    return [{ path: `cautions.${id}.brings`, message: 'is not there to change the pad', tip }];
  }
  const breaches: Breach[] = [];
  if (brings[own.part] !== own.value)
    breaches.push({
      path: `cautions.${id}.brings`,
      message: `does not bring ${own.part} ${own.value}`,
      tip: 'Say what the pad is once the person has done as the caution says.',
    });
  if (!guards.includes(own.part))
    breaches.push({
      path: `cautions.${id}.guards`,
      message: `does not lapse when ${own.part} changes`,
      tip: `Add "${own.part}" to what it guards.`,
    });
  return breaches;
}

export const cautionsGuardWhatTheyBring: Rule = ({ cautions }) => cautions.flatMap(inconsistent);
