/** Short forms in which the tables of faults are written. */
import type { CautionId } from '../ids.ts';
import type { Repair, When } from '../schema.ts';

export const OWNER = ['owner', 'technician'] as const;
export const TECHNICIAN = ['technician'] as const;
export const ELECTRICIAN_TOO = ['technician', 'electrician'] as const;
export const OWNER_OR_ELECTRICIAN = ['owner', 'technician', 'electrician'] as const;

export const SUCTION: When = { cleaner: ['suction'] };
export const SUCTION_AT_SKIMMER: When = { cleaner: ['suction'], connection: ['skimmer'] };
export const WITH_CANISTER: When = { cleaner: ['suction'], canister: ['yes'] };
export const PRESSURE: When = { cleaner: ['pressure-booster', 'pressure-return'] };
export const BOOSTER: When = { cleaner: ['pressure-booster'] };
export const ROBOT: When = { cleaner: ['robotic'] };

interface RepairOptions {
  cures?: number;
  part?: boolean;
  cautions?: Repair['cautions'];
}

function cautions(...ids: CautionId[]): Repair['cautions'] {
  return ids.map((id) => ({ id }));
}

function repair(
  base: Pick<Repair, 'class' | 'cautions' | 'needs' | 'leaves'>,
  minutes: number,
  options: RepairOptions,
): Repair {
  return {
    ...base,
    minutes,
    cures: options.cures ?? 0.92,
    part: options.part ?? false,
    cautions: [...base.cautions, ...(options.cautions ?? [])],
  };
}

const AFTER_RESTART = { pump: 'running', lid: 'closed', pressure: 'up', hose: 'in' } as const;

/** Outside the water, nothing opened: a handle, a setting, a garden hose. */
export function outside(minutes: number, options: RepairOptions = {}): Repair {
  return repair({ class: 1, cautions: [], needs: {}, leaves: { hose: 'in' } }, minutes, options);
}

/** Hands in the pool, on the hose or on the cleaner. */
export function inWater(minutes: number, options: RepairOptions = {}): Repair {
  const base = {
    class: 1,
    cautions: cautions('suction-entrapment', 'drowning'),
    needs: {},
    leaves: { hose: 'in' },
  } as const;
  return repair(base, minutes, options);
}

/** Hands in the pool, on the hose or on the cleaner with the pump off; restarted at the end. */
export function stopped(minutes: number, options: RepairOptions = {}): Repair {
  const base = {
    class: 1,
    cautions: cautions('pump-off', 'drowning', 'restart-swimmers'),
    needs: { pump: 'off' },
    leaves: AFTER_RESTART,
  } as const;
  return repair(base, minutes, options);
}

/** As `stopped`, with the cleaner and its hose lifted out. */
export function liftedOut(minutes: number, options: RepairOptions = {}): Repair {
  return { ...stopped(minutes, options), needs: { pump: 'off', hose: 'out' } };
}

/** The pump off, nothing under pressure opened; restarted at the end. */
export function pumpOff(minutes: number, options: RepairOptions = {}): Repair {
  const base = {
    class: 2,
    cautions: cautions('pump-off', 'restart-swimmers'),
    needs: { pump: 'off' },
    leaves: AFTER_RESTART,
  } as const;
  return repair(base, minutes, options);
}

/** The strainer lid open with the pump off. */
export function lidOpen(minutes: number, options: RepairOptions = {}): Repair {
  const base = pumpOff(minutes, options);
  return { ...base, needs: { pump: 'off', lid: 'open' } };
}

/** A filter or its clamp opened: its pressure let go first. */
export function filterOpen(minutes: number, options: RepairOptions = {}): Repair {
  const base = pumpOff(minutes, options);
  const guarded: Repair['cautions'] = [...cautions('pump-off', 'filter-pressure'), ...base.cautions.slice(1)];
  return { ...base, cautions: guarded, needs: { pump: 'off', pressure: 'released' } };
}

/** A technician's work with tools and the power locked off. */
export function lockedOff(minutes: number, options: RepairOptions = {}): Repair {
  const base = {
    class: 3,
    cautions: cautions('power-lockout', 'restart-swimmers'),
    needs: { pump: 'off', power: 'locked' },
    leaves: { ...AFTER_RESTART, power: 'on' },
  } as const;
  return repair(base, minutes, options);
}

/** At an outlet, clock or breaker: dry hands, one reset. */
export function atTheSwitch(minutes: number, options: RepairOptions = {}): Repair {
  const base = {
    class: 2,
    cautions: cautions('electric-water', 'restart-swimmers'),
    needs: {},
    leaves: { pump: 'running', power: 'on' },
  } as const;
  return repair(base, minutes, options);
}

/** A robot unplugged and lifted out. */
export function unplugged(minutes: number, options: RepairOptions = {}): Repair {
  const base = {
    class: 1,
    cautions: cautions('robot-unplug', 'drowning'),
    needs: { robot: 'unplugged' },
    leaves: { robot: 'plugged' },
  } as const;
  return repair(base, minutes, options);
}
