/** Checks on a suction cleaner, its hose and its canister. Probabilities are the maker's own estimates. */
import type { Check } from '../schema.ts';
import { HANDS_HOSE, HANDS_RUNNING, HANDS_WATER, LOOK, LOOK_RUNNING, look, reading } from './build.ts';
import {
  AFTER_PUMP_BLOCKED,
  AIR_AT_PUMP,
  AIR_AT_SKIMMER,
  BYPASS,
  HOSE_BLOCKED,
  HOSE_LEAK,
  NO_POWER,
  PUMP_WEAK,
  SUCTION_BLOCKED,
} from './groups.ts';

const SUCTION = { when: { cleaner: ['suction'] } };
const CANISTER = { when: { cleaner: ['suction'], canister: ['yes'] }, silent: ['no-canister'] };

export const SUCTION_CHECKS: readonly Check[] = [
  look(
    'movement-pattern',
    LOOK_RUNNING,
    1,
    ['still', 'slow', 'circles', 'one-area', 'floats', 'normal'],
    [0.4, 0.35, 0.06, 0.06, 0.03, 0.1],
    [
      [
        ['hose-coiled', 'robot-cable-twisted'],
        [0.02, 0.05, 0.56, 0.31, 0.03, 0.03],
      ],
      [['hose-wrong-length'], [0.03, 0.05, 0.16, 0.7, 0.03, 0.03]],
      [['flow-set-high'], [0.03, 0.03, 0.3, 0.2, 0.41, 0.03]],
      [['thrust-misaimed'], [0.03, 0.06, 0.5, 0.2, 0.18, 0.03]],
      [['algae-slippery-wall'], [0.02, 0.1, 0.03, 0.17, 0.03, 0.65]],
      [['robot-air-trapped'], [0.03, 0.05, 0.03, 0.06, 0.8, 0.03]],
      [['bag-full'], [0.05, 0.3, 0.05, 0.05, 0.15, 0.4]],
    ],
    {
      when: { cleaner: ['suction', 'pressure-booster', 'pressure-return', 'robotic'] },
      saidBy: ['not-moving', 'moves-slowly', 'one-area', 'floats-or-tips', 'robot-dead', 'robot-stops-early'],
    },
  ),
  look(
    'hose-look',
    LOOK,
    1,
    ['normal', 'coiled', 'wrong-length'],
    [0.92, 0.05, 0.03],
    [
      [['hose-coiled'], [0.05, 0.92, 0.03]],
      [['hose-wrong-length'], [0.07, 0.03, 0.9]],
    ],
    SUCTION,
  ),
  reading('cleaner-suction', HANDS_RUNNING, 3, 'no-tester', SUCTION.when),
  look(
    'hose-hand-feel',
    HANDS_RUNNING,
    1,
    ['strong', 'weak'],
    [0.93, 0.07],
    [
      [HOSE_BLOCKED, [0.06, 0.94]],
      [HOSE_LEAK, [0.25, 0.75]],
      [['canister-seal-leak'], [0.3, 0.7]],
      [
        ['suction-valve-moved', ...BYPASS, 'flow-set-low'],
        [0.1, 0.9],
      ],
      [
        [...SUCTION_BLOCKED, ...AFTER_PUMP_BLOCKED, ...PUMP_WEAK],
        [0.13, 0.87],
      ],
      [
        [...AIR_AT_PUMP, ...AIR_AT_SKIMMER],
        [0.2, 0.8],
      ],
      [
        ['shaft-seal-leak', 'motor-worn'],
        [0.45, 0.55],
      ],
      [
        [...NO_POWER, 'prime-lost', 'multiport-wrong'],
        [0.03, 0.97],
      ],
    ],
    SUCTION,
  ),
  look(
    'flow-regulator',
    HANDS_WATER,
    1,
    ['within', 'low', 'high'],
    [0.94, 0.03, 0.03],
    [
      [['flow-set-low'], [0.05, 0.93, 0.02]],
      [['flow-set-high'], [0.05, 0.02, 0.93]],
    ],
    SUCTION,
  ),
  look(
    'cleaner-throat',
    HANDS_HOSE,
    2,
    ['clear', 'blocked'],
    [0.95, 0.05],
    [[['cleaner-throat-blocked'], [0.04, 0.96]]],
    SUCTION,
  ),
  look(
    'cleaner-wear',
    HANDS_HOSE,
    2,
    ['sound', 'worn', 'jammed'],
    [0.91, 0.07, 0.02],
    [
      [['cleaner-worn'], [0.07, 0.91, 0.02]],
      [['cleaner-drive-jammed'], [0.07, 0.05, 0.88]],
      [['drive-worn'], [0.09, 0.82, 0.09]],
    ],
    { when: { cleaner: ['suction', 'pressure-booster', 'pressure-return'] } },
  ),
  look(
    'canister-look',
    HANDS_WATER,
    2,
    ['clear', 'full', 'seal-leak'],
    [0.92, 0.05, 0.03],
    [
      [['canister-full'], [0.03, 0.95, 0.02]],
      [['canister-seal-leak'], [0.12, 0.03, 0.85]],
    ],
    CANISTER,
  ),
  look(
    'hose-lift-listen',
    HANDS_RUNNING,
    3,
    ['silent', 'hiss'],
    [0.96, 0.04],
    [
      [['hose-split'], [0.06, 0.94]],
      [['hose-joint-loose'], [0.14, 0.86]],
      [['canister-seal-leak'], [0.5, 0.5]],
    ],
    SUCTION,
  ),
  look(
    'hose-off-test',
    HANDS_RUNNING,
    3,
    ['no-change', 'recovers', 'still-poor'],
    [0.9, 0.06, 0.04],
    [
      [
        ['cleaner-throat-blocked', 'flow-set-low'],
        [0.3, 0.66, 0.04],
      ],
      [HOSE_BLOCKED, [0.2, 0.75, 0.05]],
      [
        [...HOSE_LEAK, 'canister-seal-leak'],
        [0.22, 0.73, 0.05],
      ],
      [AIR_AT_PUMP, [0.06, 0.84, 0.1]],
      [['shaft-seal-leak'], [0.3, 0.6, 0.1]],
      [['motor-worn'], [0.35, 0.1, 0.55]],
      [AIR_AT_SKIMMER, [0.1, 0.1, 0.8]],
      [['suction-valve-moved'], [0.22, 0.1, 0.68]],
      [
        [...SUCTION_BLOCKED, ...PUMP_WEAK, ...AFTER_PUMP_BLOCKED],
        [0.12, 0.1, 0.78],
      ],
      [
        [...NO_POWER, 'prime-lost', 'multiport-wrong'],
        [0.04, 0.03, 0.93],
      ],
    ],
    SUCTION,
  ),
  look(
    'hose-sections',
    HANDS_HOSE,
    6,
    ['clear', 'blocked', 'loose-joint'],
    [0.95, 0.02, 0.03],
    [
      [['hose-blocked'], [0.04, 0.95, 0.01]],
      [['hose-joint-loose'], [0.12, 0.02, 0.86]],
      [['hose-split'], [0.7, 0.02, 0.28]],
    ],
    SUCTION,
  ),
  look(
    'wall-brush',
    HANDS_WATER,
    1,
    ['clean', 'slippery'],
    [0.92, 0.08],
    [[['algae-slippery-wall'], [0.05, 0.95]]],
  ),
];
