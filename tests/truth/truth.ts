/**
 * What a careful person would find at a pool with one fault: an answer table of its own, kept apart from the
 * probabilities the engine reasons with. Checks that are not named show their normal outcome.
 * Which way a gauge moves is common practice, no source; how far is what a typical loop shows under a marked fault.
 */
import type { CheckId, FaultId, Quantity } from '../../src/knowledge/ids.ts';

type Findings = Partial<Record<CheckId, string>>;
/** Reading over the clean reading. */
type Ratios = Partial<Record<Quantity, number>>;

export interface Truth {
  finds: Findings;
  reads: Ratios;
}

const AIR: Truth = {
  finds: {
    'pump-lid-look': 'bubbles',
    'return-flow': 'bubbles',
    'hose-off-test': 'recovers',
    'hose-hand-feel': 'weak',
  },
  reads: { 'filter-pressure': 0.6, 'pump-vacuum': 0.65, 'cleaner-suction': 0.6 },
};
const SUCTION_BLOCKED: Truth = {
  finds: { 'return-flow': 'weak', 'hose-hand-feel': 'weak', 'hose-off-test': 'still-poor' },
  reads: { 'filter-pressure': 0.75, 'pump-vacuum': 2.3, 'cleaner-suction': 0.75 },
};
const BLOCKED_AFTER_PUMP: Truth = {
  finds: { 'return-flow': 'weak', 'hose-hand-feel': 'weak', 'hose-off-test': 'still-poor' },
  reads: { 'filter-pressure': 1.5, 'pump-vacuum': 0.45, 'cleaner-suction': 0.4 },
};
const WEAK_PUMP: Truth = {
  finds: { 'return-flow': 'weak', 'hose-hand-feel': 'weak', 'hose-off-test': 'still-poor' },
  reads: { 'filter-pressure': 0.55, 'pump-vacuum': 0.6, 'cleaner-suction': 0.55 },
};
const NO_FLOW: Truth = {
  finds: { 'return-flow': 'none', 'hose-hand-feel': 'weak', 'hose-off-test': 'still-poor' },
  reads: { 'filter-pressure': 0, 'pump-vacuum': 0, 'cleaner-suction': 0 },
};
const CLEANER_BLOCKED: Truth = {
  finds: { 'hose-off-test': 'recovers' },
  reads: { 'filter-pressure': 0.78, 'pump-vacuum': 2.2, 'cleaner-suction': 1.8 },
};
const BYPASS: Truth = {
  finds: { 'hose-hand-feel': 'weak' },
  reads: { 'filter-pressure': 1.09, 'pump-vacuum': 0.5, 'cleaner-suction': 0.4 },
};
const HOSE_LEAK: Truth = {
  finds: { 'hose-lift-listen': 'hiss', 'hose-hand-feel': 'weak', 'hose-off-test': 'recovers' },
  reads: { 'filter-pressure': 1.05, 'pump-vacuum': 0.7, 'cleaner-suction': 0.5 },
};
const PLAIN: Truth = { finds: {}, reads: {} };
const STARVED: Truth = { finds: {}, reads: { 'wheel-turns': 0.6 } };

function like(truth: Truth, finds: Findings, reads: Ratios = {}): Truth {
  return { finds: { ...truth.finds, ...finds }, reads: { ...truth.reads, ...reads } };
}

export const TRUTH: Record<FaultId, Truth> = {
  'cleaner-throat-blocked': like(CLEANER_BLOCKED, { 'cleaner-throat': 'blocked' }),
  'cleaner-worn': like(PLAIN, { 'cleaner-wear': 'worn' }),
  'cleaner-drive-jammed': like(PLAIN, { 'cleaner-wear': 'jammed' }),
  'canister-full': like(CLEANER_BLOCKED, { 'canister-look': 'full', 'hose-hand-feel': 'weak' }),
  'canister-seal-leak': like(HOSE_LEAK, { 'canister-look': 'seal-leak' }),
  'hose-blocked': like(CLEANER_BLOCKED, { 'hose-sections': 'blocked', 'hose-hand-feel': 'weak' }),
  'hose-split': HOSE_LEAK,
  'hose-joint-loose': like(HOSE_LEAK, { 'hose-sections': 'loose-joint' }),
  'hose-wrong-length': like(PLAIN, { 'hose-look': 'wrong-length', 'movement-pattern': 'one-area' }),
  'hose-coiled': like(PLAIN, { 'hose-look': 'coiled', 'movement-pattern': 'circles' }),
  'flow-set-low': like(
    CLEANER_BLOCKED,
    { 'flow-regulator': 'low', 'hose-hand-feel': 'weak' },
    { 'cleaner-suction': 0.5 },
  ),
  'flow-set-high': like(PLAIN, { 'flow-regulator': 'high', 'movement-pattern': 'circles' }),
  'skimmer-plate-unseated': like(BYPASS, { 'skimmer-look': 'plate-loose' }),
  'skimmer-basket-full': like(SUCTION_BLOCKED, { 'skimmer-look': 'basket-full' }),
  'skimmer-weir-stuck': like(AIR, { 'skimmer-look': 'weir-stuck', 'hose-off-test': 'still-poor' }),
  'water-low': like(AIR, { 'water-level': 'low', 'hose-off-test': 'still-poor' }),
  'suction-valve-moved': like(
    SUCTION_BLOCKED,
    { 'valve-handles': 'moved', 'return-flow': 'strong' },
    { 'filter-pressure': 0.85, 'pump-vacuum': 1.8 },
  ),
  'other-suction-open': like(BYPASS, { 'valve-handles': 'others-open' }),
  'algae-slippery-wall': like(PLAIN, { 'wall-brush': 'slippery', 'movement-pattern': 'normal' }),
  'strainer-basket-full': like(SUCTION_BLOCKED, { 'strainer-basket': 'full' }),
  'strainer-basket-cracked': like(PLAIN, { 'strainer-basket': 'cracked', 'debris-look': 'leaves' }),
  'lid-oring-worn': like(AIR, { 'lid-oring-look': 'dry-or-flattened' }),
  'lid-cracked': like(AIR, { 'lid-oring-look': 'lid-cracked' }),
  'drain-plug-leak': like(AIR, { 'plugs-and-unions': 'sucks-air' }),
  'suction-union-leak': like(AIR, { 'plugs-and-unions': 'sucks-air' }),
  'valve-stem-leak': like(AIR, { 'plugs-and-unions': 'sucks-air' }),
  'suction-line-leak': like(AIR, { 'line-isolate-test': 'one-line' }),
  'suction-line-blocked': SUCTION_BLOCKED,
  'shaft-seal-leak': like(AIR, { 'under-pump-look': 'drips-at-seal' }),
  'impeller-clogged': like(WEAK_PUMP, { 'impeller-look': 'clogged' }),
  'pump-speed-low': like(WEAK_PUMP, { 'pump-schedule': 'speed-low' }),
  'prime-lost': like(NO_FLOW, { 'pump-lid-look': 'empty' }),
  'pump-off-schedule': like(NO_FLOW, { 'pump-running': 'silent', 'pump-schedule': 'wrong' }),
  'breaker-tripped': like(NO_FLOW, { 'pump-running': 'silent' }),
  'motor-hums': like(NO_FLOW, { 'pump-running': 'hums' }),
  'motor-worn': like(
    WEAK_PUMP,
    {},
    { 'filter-pressure': 0.75, 'pump-vacuum': 0.78, 'cleaner-suction': 0.75 },
  ),
  'filter-dirty': like(BLOCKED_AFTER_PUMP, {
    'filter-last-cleaned': 'overdue',
    'filter-clean-response': 'drops-to-clean',
    'filter-internals-look': 'fouled',
  }),
  'filter-internals-torn': like(
    PLAIN,
    { 'debris-look': 'sand', 'return-flow': 'debris', 'filter-internals-look': 'torn' },
    { 'filter-pressure': 0.88, 'pump-vacuum': 1.13 },
  ),
  'filter-media-spent': like(BLOCKED_AFTER_PUMP, {
    'filter-clean-response': 'climbs-back',
    'filter-internals-look': 'fouled',
  }),
  'multiport-wrong': like(BLOCKED_AFTER_PUMP, {
    'multiport-look': 'other',
    'return-flow': 'none',
    'filter-clean-response': 'stays-high',
  }),
  'return-valve-closed': like(BLOCKED_AFTER_PUMP, {
    'return-valves-look': 'closed',
    'filter-clean-response': 'stays-high',
  }),
  'heater-blocked': like(BLOCKED_AFTER_PUMP, { 'filter-clean-response': 'stays-high' }),
  'air-trapped-filter': like(PLAIN, { 'return-flow': 'bubbles' }),
  'gauge-stuck': like(PLAIN, { 'gauge-returns-zero': 'stuck' }, { 'filter-pressure': 1.5 }),
  'booster-off': like(PLAIN, { 'booster-running': 'silent' }, { 'wheel-turns': 0 }),
  'booster-starved': like(STARVED, { 'booster-running': 'runs-dry' }),
  'booster-worn': STARVED,
  'wall-screen-blocked': like(STARVED, { 'wall-screen': 'blocked' }),
  'quick-disconnect-leak': like(STARVED, { 'quick-disconnect': 'leaks' }),
  'feed-hose-leak': like(STARVED, { 'feed-hose-look': 'leaks' }),
  'backup-valve-stuck': like(PLAIN, { 'backup-cycle': 'always' }),
  'jets-blocked': like(PLAIN, { 'jets-look': 'blocked' }),
  'bag-full': like(PLAIN, { 'bag-look': 'full' }),
  'drive-worn': like(PLAIN, { 'cleaner-wear': 'worn' }, { 'wheel-turns': 0.8 }),
  'thrust-misaimed': like(PLAIN, { 'movement-pattern': 'circles' }),
  'pressure-set-wrong': STARVED,
  'robot-outlet-dead': like(PLAIN, { 'robot-lights': 'off', 'outlet-test': 'dead' }),
  'robot-power-unit-failed': like(PLAIN, { 'robot-lights': 'off' }),
  'robot-cable-damaged': like(PLAIN, { 'cable-look': 'damaged', 'robot-lights': 'blinking' }),
  'robot-cable-twisted': like(PLAIN, { 'cable-look': 'twisted', 'movement-pattern': 'circles' }),
  'robot-basket-full': like(PLAIN, { 'robot-basket': 'full' }),
  'robot-impeller-jammed': like(PLAIN, { 'robot-impeller': 'jammed' }),
  'robot-track-worn': like(PLAIN, { 'robot-tracks': 'worn' }),
  'robot-air-trapped': like(PLAIN, { 'robot-bubbles': 'bubbles', 'movement-pattern': 'floats' }),
  'robot-drive-failed': like(PLAIN, { 'robot-lights': 'blinking' }),
};

/** Clean readings of the pools in these tests, as they are shown on the gauges. */
export const CLEAN: Record<Quantity, { value: number; unit: string }> = {
  'filter-pressure': { value: 15, unit: 'psi' },
  'pump-vacuum': { value: 7, unit: 'inHg' },
  'cleaner-suction': { value: 2.5, unit: 'inHg' },
  'wheel-turns': { value: 30, unit: 'rpm' },
};
