/** Short forms in which the tables of checks are written. */
import type { CautionId, CheckId, ComplaintId, FaultId, Quantity } from '../ids.ts';
import type { Check, Step, When } from '../schema.ts';

type Exposure = Pick<Step, 'class' | 'cautions' | 'needs' | 'leaves'>;

function cautions(...ids: CautionId[]): Step['cautions'] {
  return ids.map((id) => ({ id }));
}

/** Look or listen from outside. */
export const LOOK: Exposure = { class: 0, cautions: [], needs: {}, leaves: {} };
/** Look while the water moves, with the cleaner at work. */
export const LOOK_RUNNING: Exposure = { ...LOOK, needs: { pump: 'running', hose: 'in' } };
/** A look that asks for the pump to be stopped. */
export const LOOK_STOPPED: Exposure = { ...LOOK, cautions: cautions('pump-off'), needs: { pump: 'off' } };
/** Near an outlet, clock or breaker. */
export const LOOK_ELECTRIC: Exposure = { ...LOOK, cautions: cautions('electric-water') };
/** A hand on the cleaner or hose, lifted to the side with the pump off. */
export const HANDS_HOSE: Exposure = {
  class: 1,
  cautions: cautions('pump-off', 'drowning'),
  needs: { pump: 'off', hose: 'out' },
  leaves: {},
};
/** A hand in the water, the pump running or not, the hose staying where it is. */
export const HANDS_WATER: Exposure = {
  class: 1,
  cautions: cautions('suction-entrapment', 'drowning'),
  needs: {},
  leaves: {},
};
/** A hand in the water with the pump running. */
export const HANDS_RUNNING: Exposure = { ...HANDS_WATER, needs: { pump: 'running', hose: 'in' } };
/** The strainer opened with the pump off. */
export const LID_OPEN: Exposure = {
  class: 2,
  cautions: cautions('pump-off'),
  needs: { pump: 'off', lid: 'open' },
  leaves: {},
};
/** The filter opened or cleaned: pressure let go first, the pump running again at the end. */
export const FILTER_OPEN: Exposure = {
  class: 2,
  cautions: [
    ...cautions('pump-off', 'filter-pressure', 'restart-swimmers', 'backwash-drain'),
    { id: 'de-dust', when: { filter: ['de'] } },
  ],
  needs: { pump: 'off', pressure: 'released' },
  leaves: { pump: 'running', lid: 'closed', pressure: 'up' },
};
/** Tools, the power locked off. */
export const LOCKED_OFF: Exposure = {
  class: 3,
  cautions: cautions('power-lockout'),
  needs: { pump: 'off', power: 'locked' },
  leaves: {},
};
/** A robot unplugged and in the hands. */
export const ROBOT_UNPLUGGED: Exposure = {
  class: 1,
  cautions: cautions('robot-unplug', 'drowning'),
  needs: { robot: 'unplugged' },
  leaves: {},
};

interface Extras {
  when?: When;
  saidBy?: readonly ComplaintId[];
  silent?: readonly string[];
  cautions?: Step['cautions'];
}

type Row = readonly [faults: readonly FaultId[], outcomes: readonly number[]];

/** A check answered by choosing among outcomes; `base` and each row follow the order of `outcomes`. */
export function look(
  id: CheckId,
  exposure: Exposure,
  minutes: number,
  outcomes: readonly string[],
  base: readonly number[],
  rows: readonly Row[],
  extras: Extras = {},
): Check {
  return {
    ...exposure,
    cautions: [...exposure.cautions, ...(extras.cautions ?? [])],
    id,
    minutes,
    outcomes,
    base,
    given: rows.map(([faults, distribution]) => ({ faults, outcomes: distribution })),
    when: extras.when ?? {},
    saidBy: extras.saidBy ?? [],
    silent: extras.silent ?? [],
  };
}

/** A check answered with a number; `none` is the answer of a person who has no such instrument. */
export function reading(
  id: CheckId & Quantity,
  exposure: Exposure,
  minutes: number,
  none: string,
  when: When = {},
): Check {
  return {
    ...exposure,
    id,
    minutes,
    quantity: id,
    outcomes: [],
    base: [],
    given: [],
    when,
    saidBy: [],
    silent: [none],
  };
}
