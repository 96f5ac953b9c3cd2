/** The names of the trade that the whole project shares. An id, once given, is never reused for something else. */

export const FAULT_IDS = [
  // suction cleaner, hose, connection
  'cleaner-throat-blocked',
  'cleaner-worn',
  'cleaner-drive-jammed',
  'canister-full',
  'canister-seal-leak',
  'hose-blocked',
  'hose-split',
  'hose-joint-loose',
  'hose-wrong-length',
  'hose-coiled',
  'flow-set-low',
  'flow-set-high',
  'skimmer-plate-unseated',
  'skimmer-basket-full',
  'skimmer-weir-stuck',
  'water-low',
  'suction-valve-moved',
  'other-suction-open',
  'algae-slippery-wall',
  // suction line and pump
  'strainer-basket-full',
  'strainer-basket-cracked',
  'lid-oring-worn',
  'lid-cracked',
  'drain-plug-leak',
  'suction-union-leak',
  'valve-stem-leak',
  'suction-line-leak',
  'suction-line-blocked',
  'shaft-seal-leak',
  'impeller-clogged',
  'pump-speed-low',
  'prime-lost',
  'pump-off-schedule',
  'breaker-tripped',
  'motor-hums',
  'motor-worn',
  // filter and return side
  'filter-dirty',
  'filter-internals-torn',
  'filter-media-spent',
  'multiport-wrong',
  'return-valve-closed',
  'heater-blocked',
  'air-trapped-filter',
  'gauge-stuck',
  // pressure cleaner
  'booster-off',
  'booster-starved',
  'booster-worn',
  'wall-screen-blocked',
  'quick-disconnect-leak',
  'feed-hose-leak',
  'backup-valve-stuck',
  'jets-blocked',
  'bag-full',
  'drive-worn',
  'thrust-misaimed',
  'pressure-set-wrong',
  // robot
  'robot-outlet-dead',
  'robot-power-unit-failed',
  'robot-cable-damaged',
  'robot-cable-twisted',
  'robot-basket-full',
  'robot-impeller-jammed',
  'robot-track-worn',
  'robot-air-trapped',
  'robot-drive-failed',
] as const;
export type FaultId = (typeof FAULT_IDS)[number];

/** What is left when none of the known faults is the cause. */
export const SOMETHING_ELSE = 'something-else';
export type SuspectId = FaultId | typeof SOMETHING_ELSE;
export const SUSPECT_IDS: readonly SuspectId[] = [...FAULT_IDS, SOMETHING_ELSE];

/** What lies behind a fault that comes back soon after it was cured. */
export const DEEPER_CAUSE_IDS = [
  'much-debris',
  'debris-gets-past',
  'filter-overloaded',
  'water-escapes',
  'air-gets-in',
  'lid-or-seat-worn',
  'pump-ran-hot',
  'water-at-motor',
  'supply-faulty',
  'hose-aged',
  'stored-coiled',
  'somebody-resets',
  'plate-misfits',
  'feed-starved',
  'water-out-of-balance',
  'grit-in-pool',
] as const;
export type DeeperCauseId = (typeof DEEPER_CAUSE_IDS)[number];

export const CHECK_IDS = [
  'pump-running',
  'pump-schedule',
  'water-level',
  'skimmer-look',
  'pump-lid-look',
  'return-flow',
  'filter-pressure',
  'pump-vacuum',
  'cleaner-suction',
  'gauge-returns-zero',
  'filter-last-cleaned',
  'valve-handles',
  'movement-pattern',
  'hose-look',
  'hose-hand-feel',
  'flow-regulator',
  'cleaner-throat',
  'cleaner-wear',
  'canister-look',
  'hose-lift-listen',
  'hose-off-test',
  'hose-sections',
  'wall-brush',
  'strainer-basket',
  'lid-oring-look',
  'plugs-and-unions',
  'multiport-look',
  'return-valves-look',
  'filter-clean-response',
  'debris-look',
  'under-pump-look',
  'impeller-look',
  'line-isolate-test',
  'filter-internals-look',
  'motor-electrical',
  'booster-running',
  'wall-screen',
  'quick-disconnect',
  'feed-hose-look',
  'wheel-turns',
  'jets-look',
  'bag-look',
  'backup-cycle',
  'robot-lights',
  'outlet-test',
  'robot-basket',
  'robot-impeller',
  'cable-look',
  'robot-tracks',
  'robot-bubbles',
] as const;
export type CheckId = (typeof CHECK_IDS)[number];

/** Checks that are answered with a number read from an instrument or counted. */
export const QUANTITIES = ['filter-pressure', 'pump-vacuum', 'cleaner-suction', 'wheel-turns'] as const;
export type Quantity = (typeof QUANTITIES)[number];

/** Whether an id is that of a quantity read or counted. */
export function isQuantity(id: string): id is Quantity {
  return QUANTITIES.some((quantity) => quantity === id);
}

export const COMPLAINT_IDS = [
  'not-moving',
  'moves-slowly',
  'one-area',
  'wont-climb',
  'floats-or-tips',
  'plate-pops-out',
  'poor-pickup',
  'air-in-pump',
  'bubbles-at-returns',
  'wont-prime',
  'pump-dead',
  'pump-hums',
  'breaker-trips',
  'pressure-high',
  'pressure-low',
  'pressure-climbs-fast',
  'debris-returns',
  'weak-hand-vacuum',
  'pump-noise',
  'pad-leak',
  'robot-dead',
  'robot-stops-early',
  'cable-tangles',
  'cloudy-water',
] as const;
export type ComplaintId = (typeof COMPLAINT_IDS)[number];

export const CAUTION_IDS = [
  'suction-entrapment',
  'pump-off',
  'filter-pressure',
  'power-lockout',
  'electric-water',
  'robot-unplug',
  'restart-swimmers',
  'feeder-gas',
  'never-mix',
  'acid-soak',
  'de-dust',
  'backwash-drain',
  'drowning',
  'local-code',
] as const;
export type CautionId = (typeof CAUTION_IDS)[number];

/** What stops everything: the person is told at once what to do, and nothing else. */
export const EMERGENCY_IDS = [
  'electric-shock',
  'suction-cover-missing',
  'held-by-suction',
  'person-hurt',
  'chlorine-gas',
  'smoke-or-burning',
  'breaker-trips-twice',
  'gas-smell',
] as const;
export type EmergencyId = (typeof EMERGENCY_IDS)[number];

export const PLACES = [
  'pool',
  'cleaner',
  'hose',
  'canister',
  'skimmer',
  'port',
  'suction-line',
  'suction-valve',
  'pump-strainer',
  'pump',
  'filter',
  'return-side',
  'booster',
  'pressure-line',
  'wall-fitting',
  'outlet',
  'power-unit',
  'cable',
  'electrics',
] as const;
export type Place = (typeof PLACES)[number];
