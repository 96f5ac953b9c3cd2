/** Faults that act alike on what a person can see from outside. */
import type { FaultId } from '../ids.ts';

/** Air drawn in at the pump or the line to it. */
export const AIR_AT_PUMP: readonly FaultId[] = [
  'lid-oring-worn',
  'lid-cracked',
  'drain-plug-leak',
  'suction-union-leak',
  'valve-stem-leak',
  'suction-line-leak',
];
export const AIR_AT_SKIMMER: readonly FaultId[] = ['water-low', 'skimmer-weir-stuck'];
export const HOSE_LEAK: readonly FaultId[] = ['hose-split', 'hose-joint-loose'];
export const HOSE_BLOCKED: readonly FaultId[] = ['hose-blocked', 'canister-full'];
export const SUCTION_BLOCKED: readonly FaultId[] = [
  'strainer-basket-full',
  'suction-line-blocked',
  'skimmer-basket-full',
];
export const AFTER_PUMP_BLOCKED: readonly FaultId[] = [
  'filter-dirty',
  'filter-media-spent',
  'return-valve-closed',
  'heater-blocked',
];
export const PUMP_WEAK: readonly FaultId[] = ['impeller-clogged', 'pump-speed-low'];
export const NO_POWER: readonly FaultId[] = ['pump-off-schedule', 'breaker-tripped', 'motor-hums'];
export const BYPASS: readonly FaultId[] = ['skimmer-plate-unseated', 'other-suction-open'];
