/** Pools with two faults at once: how often both are cured, or the one left is named at the hand-off. */
import { ROLES } from '../../src/knowledge/schema.ts';
import { SEED } from './compare.ts';
import { meanWithInterval, shown } from './figures.ts';
import { play } from './play.ts';
import { POLICIES } from './policies.ts';
import { drawTwofold } from './world.ts';

/** One line of figures over so many pools. */
export function twoFaults(count: number): string {
  const endings = Array.from({ length: count }, (_, index) =>
    play(drawTwofold(SEED + 7907 * index, ROLES[index % ROLES.length]!), POLICIES.padside),
  );
  const share = (test: (ending: (typeof endings)[number]) => boolean): string =>
    `${shown(meanWithInterval(endings.map((ending) => (test(ending) ? 1 : 0))), 1, 100)} %`;
  return [
    `${count} pools, seed ${SEED}: both cured ${share(({ fixed }) => fixed)}`,
    `cured or the right one named ${share(({ right }) => right)}`,
    `minutes ${shown(meanWithInterval(endings.map(({ minutes }) => minutes)), 1)}`,
    `steps ${shown(meanWithInterval(endings.map(({ steps }) => steps)), 1)}`,
  ].join(', ');
}
