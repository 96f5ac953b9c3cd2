/** A step that needs the pad in a safe state carries the caution that brings it there. */
import type { CautionId } from '../ids.ts';
import type { Pad } from '../schema.ts';
import type { Breach, Rule, SafeStep } from './breach.ts';
import { carries, stepsOf } from './breach.ts';

interface Need {
  part: keyof Pad;
  value: string;
  /** Any one of them. */
  cautions: readonly CautionId[];
}

const NEEDS: readonly Need[] = [
  { part: 'pump', value: 'off', cautions: ['pump-off', 'power-lockout'] },
  { part: 'pressure', value: 'released', cautions: ['filter-pressure'] },
  { part: 'robot', value: 'unplugged', cautions: ['robot-unplug'] },
  { part: 'power', value: 'locked', cautions: ['power-lockout'] },
];

function unguarded({ path, step }: SafeStep): Breach[] {
  return NEEDS.filter(
    ({ part, value, cautions }) => step.needs[part] === value && !carries(step, ...cautions),
  ).map(({ part, value, cautions }) => ({
    path,
    message: `needs ${part} ${value} but carries no ${cautions.join(' or ')}`,
    tip: `Add the caution ${cautions.join(' or ')}.`,
  }));
}

/** An open lid, or a filter without pressure, with the pump still running. */
function stillRunning({ path, step }: SafeStep): Breach[] {
  const opened = step.needs.lid === 'open' || step.needs.pressure === 'released';
  if (!opened || step.needs.pump === 'off') return [];
  return [{ path, message: 'opens the circulation with the pump on', tip: 'Let it need the pump off.' }];
}

export const needsBroughtSafely: Rule = (trade) =>
  stepsOf(trade).flatMap((step) => [...unguarded(step), ...stillRunning(step)]);
