/** Checks on a pressure cleaner and its booster. Probabilities are the maker's own estimates. */
import type { Check } from '../schema.ts';
import { HANDS_HOSE, HANDS_RUNNING, LOOK, LOOK_RUNNING, look, reading } from './build.ts';

const PRESSURE = { when: { cleaner: ['pressure-booster', 'pressure-return'] } };
/** At the wall fitting or the cleaner, the pump that drives it off. */
const AT_WALL = { ...HANDS_HOSE, needs: { pump: 'off' } } as const;

export const PRESSURE_CHECKS: readonly Check[] = [
  look(
    'booster-running',
    LOOK_RUNNING,
    0.5,
    ['running', 'silent', 'runs-dry'],
    [0.95, 0.03, 0.02],
    [
      [['booster-off'], [0.03, 0.96, 0.01]],
      [['booster-starved'], [0.22, 0.02, 0.76]],
      [['booster-worn'], [0.82, 0.1, 0.08]],
      [
        ['pump-off-schedule', 'breaker-tripped', 'motor-hums'],
        [0.15, 0.75, 0.1],
      ],
      [['prime-lost'], [0.4, 0.1, 0.5]],
    ],
    { when: { cleaner: ['pressure-booster'] } },
  ),
  look(
    'wall-screen',
    AT_WALL,
    2,
    ['clear', 'blocked'],
    [0.95, 0.05],
    [[['wall-screen-blocked'], [0.03, 0.97]]],
    PRESSURE,
  ),
  look(
    'quick-disconnect',
    HANDS_RUNNING,
    1,
    ['sound', 'leaks'],
    [0.96, 0.04],
    [[['quick-disconnect-leak'], [0.05, 0.95]]],
    PRESSURE,
  ),
  look(
    'feed-hose-look',
    LOOK_RUNNING,
    2,
    ['sound', 'leaks', 'kinked'],
    [0.94, 0.03, 0.03],
    [[['feed-hose-leak'], [0.06, 0.9, 0.04]]],
    PRESSURE,
  ),
  reading('wheel-turns', HANDS_RUNNING, 2, 'no-wheels', PRESSURE.when),
  look(
    'jets-look',
    AT_WALL,
    2,
    ['clear', 'blocked'],
    [0.95, 0.05],
    [[['jets-blocked'], [0.05, 0.95]]],
    PRESSURE,
  ),
  look('bag-look', LOOK, 0.5, ['normal', 'full'], [0.94, 0.06], [[['bag-full'], [0.04, 0.96]]], PRESSURE),
  look(
    'backup-cycle',
    LOOK_RUNNING,
    5,
    ['cycles', 'always', 'never'],
    [0.94, 0.02, 0.04],
    [[['backup-valve-stuck'], [0.04, 0.5, 0.46]]],
    PRESSURE,
  ),
];
