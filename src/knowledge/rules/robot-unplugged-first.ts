/** A robot is unplugged before any hand goes to it. */
import type { Rule, SafeStep } from './breach.ts';
import { carries, stepsOf } from './breach.ts';

const HANDS_ON = 1;

function isHandsOnRobot({ step, when }: SafeStep): boolean {
  const cleaners = when.cleaner ?? [];
  return step.class === HANDS_ON && cleaners.length === 1 && cleaners[0] === 'robotic';
}

export const robotUnpluggedFirst: Rule = (trade) =>
  stepsOf(trade)
    .filter(isHandsOnRobot)
    .filter(({ step }) => step.needs.robot !== 'unplugged' || !carries(step, 'robot-unplug'))
    .map(({ path }) => ({
      path,
      message: 'puts a hand on a robot that may be plugged in',
      tip: 'Let it need the robot unplugged and carry robot-unplug.',
    }));
