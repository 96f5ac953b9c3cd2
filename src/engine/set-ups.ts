/** The set-ups that cost a person minutes: pump off, strainer open, hose out. */
import type { SetUps } from '../calc/repair-table.ts';
import { setUpTable } from '../calc/repair-table.ts';
import type { StepTerms } from '../calc/outlook.ts';
import type { Costs } from '../knowledge/costs.ts';
import type { PadChange, Step } from '../knowledge/schema.ts';

const PUMP_OFF = 1;
const LID_OPEN = 2;
const HOSE_OUT = 4;
const ALL = PUMP_OFF | LID_OPEN | HOSE_OUT;

/** Minutes of every set of set-ups. */
export function minutesOfSetUps(costs: Costs): Float64Array {
  return setUpTable([costs.pumpOffAndOn, costs.lidOpenAndShut, costs.hoseOutAndBack]);
}

/** The set-ups that are made in a state of the pad, or that a step needs. */
export function setUpsOf({ pump, lid, hose }: PadChange): SetUps {
  return (pump === 'off' ? PUMP_OFF : 0) | (lid === 'open' ? LID_OPEN : 0) | (hose === 'out' ? HOSE_OUT : 0);
}

/** The set-ups that this state of the pad undoes. A pump that runs has its lid shut. */
function undoneBy({ pump, lid, hose }: PadChange): SetUps {
  return (
    (pump === 'running' ? PUMP_OFF | LID_OPEN : 0) |
    (lid === 'closed' ? LID_OPEN : 0) |
    (hose === 'in' ? HOSE_OUT : 0)
  );
}

/** A step as far as the choice among steps goes. */
export function termsOf(step: Step): StepTerms {
  return {
    minutes: step.minutes,
    class: step.class,
    needs: setUpsOf(step.needs),
    keeps: ALL & ~(undoneBy(step.needs) | undoneBy(step.leaves)),
  };
}
