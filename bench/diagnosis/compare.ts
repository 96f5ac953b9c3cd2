/** Plays the same cases by every policy and prints what came of it. */
import { ROLES } from '../../src/knowledge/schema.ts';
import type { Interval } from './figures.ts';
import { meanWithInterval, ratioWithInterval, shown } from './figures.ts';
import type { Ending } from './play.ts';
import { play } from './play.ts';
import type { PolicyName } from './policies.ts';
import { POLICIES } from './policies.ts';
import type { Draw, Patient } from './world.ts';
import { drawPatient } from './world.ts';

export const SEED = 20_260_403;

/** Owners and technicians by turns, each case from a seed of its own. */
export function patients(draw: Draw, count: number): Patient[] {
  return Array.from({ length: count }, (_, index) =>
    drawPatient(SEED + 7919 * index, ROLES[index % ROLES.length]!, draw),
  );
}

type Results = Map<PolicyName, readonly Ending[]>;

function share(endings: readonly Ending[], test: (ending: Ending) => boolean): Interval {
  return meanWithInterval(endings.map((ending) => (test(ending) ? 1 : 0)));
}

function row(name: PolicyName, results: Results): string {
  const endings = results.get(name)!;
  const own = results.get('padside')!;
  const saved = ratioWithInterval(
    own.map(({ minutes }) => minutes),
    endings.map(({ minutes }) => minutes),
  );
  const triedInVain = share(endings, ({ triedInVain: vain }) => vain);
  const cells = [
    name,
    shown(meanWithInterval(endings.map(({ minutes }) => minutes)), 1),
    shown({ value: 1 - saved.value, half: saved.half }, 1, 100),
    shown(meanWithInterval(endings.map(({ ownMinutes }) => ownMinutes)), 1),
    shown(meanWithInterval(endings.map(({ steps }) => steps)), 1),
    shown(
      share(endings, ({ right }) => right),
      1,
      100,
    ),
    shown(triedInVain, 1, 100),
    shown(
      share(endings, ({ needlessVisit }) => needlessVisit),
      1,
      100,
    ),
    shown(
      share(endings, ({ missedHandOff }) => missedHandOff),
      1,
      100,
    ),
    String(endings.reduce((sum, { breaches }) => sum + breaches.length, 0)),
  ];
  return `| ${cells.join(' | ')} |`;
}

/** How much more one way of playing the same cases takes than another. */
export function compared(of: readonly Ending[], over: readonly Ending[]): string {
  const more = ratioWithInterval(
    of.map(({ minutes }) => minutes),
    over.map(({ minutes }) => minutes),
  );
  const right = (endings: readonly Ending[]): string =>
    shown(
      share(endings, (ending) => ending.right),
      1,
      100,
    );
  return [
    `${of.length} cases, seed ${SEED}: ${shown({ value: more.value - 1, half: more.half }, 1, 100)} % more minutes`,
    `right diagnosis ${right(of)} % against ${right(over)} %`,
  ].join(', ');
}

const HEAD = [
  '| policy | minutes in all | padside takes less, % | own minutes | steps | right, % | repaired in vain, % | needless visits, % | missed hand-offs, % | breaches |',
  '|---|---|---|---|---|---|---|---|---|---|',
];

/** The table of one way of drawing cases. */
export function comparison(draw: Draw, count: number): string {
  const names = Object.keys(POLICIES) as PolicyName[];
  const results: Results = new Map(names.map((name) => [name, []]));
  const drawn = patients(draw, count);
  for (const name of names)
    results.set(
      name,
      drawn.map((patient) => play(patient, POLICIES[name])),
    );
  return [...HEAD, ...names.map((name) => row(name, results))].join('\n');
}
