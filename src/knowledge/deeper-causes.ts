import type { DeeperCause } from './schema.ts';

/** What most often lies behind a fault that is back within a month. Common practice, no source. */
export const DEEPER_CAUSES: readonly DeeperCause[] = [
  {
    id: 'much-debris',
    of: [
      'canister-full',
      'skimmer-basket-full',
      'strainer-basket-full',
      'skimmer-weir-stuck',
      'cleaner-throat-blocked',
      'hose-blocked',
      'bag-full',
      'robot-basket-full',
    ],
  },
  {
    id: 'debris-gets-past',
    of: [
      'impeller-clogged',
      'suction-line-blocked',
      'wall-screen-blocked',
      'jets-blocked',
      'robot-impeller-jammed',
    ],
  },
  { id: 'filter-overloaded', of: ['filter-dirty', 'filter-media-spent', 'filter-internals-torn'] },
  { id: 'water-escapes', of: ['water-low'] },
  { id: 'air-gets-in', of: ['prime-lost', 'air-trapped-filter'] },
  { id: 'lid-or-seat-worn', of: ['lid-oring-worn', 'canister-seal-leak', 'lid-cracked'] },
  { id: 'pump-ran-hot', of: ['drain-plug-leak', 'suction-union-leak', 'shaft-seal-leak', 'booster-worn'] },
  { id: 'water-at-motor', of: ['motor-worn'] },
  {
    id: 'supply-faulty',
    of: ['breaker-tripped', 'motor-hums', 'robot-outlet-dead', 'robot-power-unit-failed'],
  },
  { id: 'hose-aged', of: ['hose-split', 'hose-joint-loose', 'feed-hose-leak', 'quick-disconnect-leak'] },
  { id: 'stored-coiled', of: ['hose-coiled', 'robot-cable-twisted'] },
  {
    id: 'somebody-resets',
    of: [
      'flow-set-low',
      'flow-set-high',
      'suction-valve-moved',
      'other-suction-open',
      'pump-speed-low',
      'pump-off-schedule',
      'multiport-wrong',
      'return-valve-closed',
      'booster-off',
      'pressure-set-wrong',
    ],
  },
  { id: 'plate-misfits', of: ['skimmer-plate-unseated'] },
  { id: 'feed-starved', of: ['booster-starved'] },
  { id: 'water-out-of-balance', of: ['algae-slippery-wall', 'heater-blocked'] },
  { id: 'grit-in-pool', of: ['cleaner-worn', 'cleaner-drive-jammed', 'drive-worn', 'robot-track-worn'] },
];
