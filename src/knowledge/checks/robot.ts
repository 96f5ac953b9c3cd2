/** Checks on a robot, from the outlet to the tracks. Probabilities are the maker's own estimates. */
import type { Check } from '../schema.ts';
import { LOOK, LOOK_ELECTRIC, look, ROBOT_UNPLUGGED } from './build.ts';

const ROBOT = { when: { cleaner: ['robotic'] } };

export const ROBOT_CHECKS: readonly Check[] = [
  look(
    'robot-lights',
    { ...LOOK, needs: { robot: 'plugged' } },
    0.5,
    ['on', 'off', 'blinking'],
    [0.92, 0.03, 0.05],
    [
      [['robot-outlet-dead'], [0.03, 0.95, 0.02]],
      [['robot-power-unit-failed'], [0.08, 0.62, 0.3]],
      [['robot-cable-damaged'], [0.4, 0.25, 0.35]],
      [['robot-impeller-jammed'], [0.55, 0.02, 0.43]],
      [['robot-drive-failed'], [0.52, 0.03, 0.45]],
    ],
    ROBOT,
  ),
  look(
    'outlet-test',
    LOOK_ELECTRIC,
    2,
    ['live', 'dead', 'trips'],
    [0.96, 0.03, 0.01],
    [
      [['robot-outlet-dead'], [0.04, 0.88, 0.08]],
      [['robot-power-unit-failed'], [0.84, 0.04, 0.12]],
      [['robot-cable-damaged'], [0.72, 0.04, 0.24]],
    ],
    { ...ROBOT, cautions: [{ id: 'local-code' }] },
  ),
  look(
    'robot-basket',
    ROBOT_UNPLUGGED,
    2,
    ['clear', 'full'],
    [0.93, 0.07],
    [[['robot-basket-full'], [0.03, 0.97]]],
    ROBOT,
  ),
  look(
    'robot-impeller',
    ROBOT_UNPLUGGED,
    3,
    ['clear', 'jammed'],
    [0.95, 0.05],
    [[['robot-impeller-jammed'], [0.05, 0.95]]],
    ROBOT,
  ),
  look(
    'cable-look',
    LOOK,
    1,
    ['straight', 'twisted', 'damaged'],
    [0.92, 0.06, 0.02],
    [
      [['robot-cable-twisted'], [0.04, 0.95, 0.01]],
      [['robot-cable-damaged'], [0.12, 0.06, 0.82]],
    ],
    ROBOT,
  ),
  look(
    'robot-tracks',
    ROBOT_UNPLUGGED,
    2,
    ['sound', 'worn'],
    [0.93, 0.07],
    [[['robot-track-worn'], [0.06, 0.94]]],
    ROBOT,
  ),
  look(
    'robot-bubbles',
    ROBOT_UNPLUGGED,
    2,
    ['none', 'bubbles'],
    [0.94, 0.06],
    [[['robot-air-trapped'], [0.05, 0.95]]],
    ROBOT,
  ),
];
