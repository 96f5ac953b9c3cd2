/** Belief after evidence in published networks, with a public inference library as an independent oracle. */
import { infer } from 'bayesjs';
import { describe, expect, it } from 'vitest';
import type { States, Variable } from '../exact/network.ts';
import { believed, combinations, yesNo } from '../exact/network.ts';

const CHEST_CLINIC: readonly Variable[] = [
  yesNo('asia', [], [0.01]),
  yesNo('tub', ['asia'], [0.05, 0.01]),
  yesNo('smoke', [], [0.5]),
  yesNo('lung', ['smoke'], [0.1, 0.01]),
  yesNo('bronc', ['smoke'], [0.6, 0.3]),
  yesNo('either', ['tub', 'lung'], [1, 1, 1, 0]),
  yesNo('xray', ['either'], [0.98, 0.05]),
  yesNo('dysp', ['bronc', 'either'], [0.9, 0.8, 0.7, 0.1]),
];

const SPRINKLER: readonly Variable[] = [
  yesNo('cloudy', [], [0.5]),
  yesNo('sprinkler', ['cloudy'], [0.1, 0.5]),
  yesNo('rain', ['cloudy'], [0.8, 0.2]),
  yesNo('wet', ['sprinkler', 'rain'], [0.99, 0.9, 0.9, 0]),
];

const BURGLARY: readonly Variable[] = [
  yesNo('burglary', [], [0.001]),
  yesNo('earthquake', [], [0.002]),
  yesNo('alarm', ['burglary', 'earthquake'], [0.95, 0.94, 0.29, 0.001]),
  yesNo('john', ['alarm'], [0.9, 0.05]),
  yesNo('mary', ['alarm'], [0.7, 0.01]),
];

const CAR_START: readonly Variable[] = [
  yesNo('fuel', [], [0.98]),
  yesNo('clean', [], [0.96]),
  {
    name: 'meter',
    states: ['full', 'half', 'empty'],
    parents: ['fuel'],
    table: [
      [0.39, 0.6, 0.01],
      [0.001, 0.001, 0.998],
    ],
  },
  yesNo('start', ['fuel', 'clean'], [0.99, 0.01, 0, 0]),
];

interface Row {
  network: readonly Variable[];
  wanted: States;
  given?: States;
  value: number;
}

function rows(network: readonly Variable[], given: States, values: Record<string, number>): Row[] {
  return Object.entries(values).map(([name, value]) => ({
    network,
    wanted: { [name]: 'yes' },
    given,
    value,
  }));
}

/** The same network in the library's own form. */
function forLibrary(network: readonly Variable[]): Parameters<typeof infer>[0] {
  const nodes = network.map(({ name, states, parents, table }) => {
    const then = (row: readonly number[]): Record<string, number> =>
      Object.fromEntries(states.map((state, index) => [state, row[index]!]));
    const above = parents.map((parent) => network.find((variable) => variable.name === parent)!);
    const cpt =
      parents.length === 0
        ? then(table[0]!)
        : combinations(above).map((when, index) => ({ when: { ...when }, then: then(table[index]!) }));
    return [name, { id: name, states: [...states], parents: [...parents], cpt }];
  });
  return Object.fromEntries(nodes) as Parameters<typeof infer>[0];
}

function agrees({ network, wanted, given = {}, value }: Row): void {
  const digits = String(value).split('.')[1]?.length ?? 0;
  const own = believed(network, wanted, given);
  expect(own).toBeCloseTo(value, Math.min(digits, 8));
  expect(infer(forLibrary(network), { ...wanted }, { ...given })).toBeCloseTo(own, 7);
}

const title = ({ wanted, given = {} }: Row): string =>
  `${JSON.stringify(wanted)} given ${JSON.stringify(given)}`;
const titled = (list: readonly Row[]): [string, Row][] => list.map((row) => [title(row), row]);

// Lauritzen & Spiegelhalter 1988.
describe('the chest clinic', () => {
  const list = [
    ...rows(
      CHEST_CLINIC,
      {},
      {
        tub: 0.0104,
        lung: 0.055,
        bronc: 0.45,
        either: 0.064828,
        xray: 0.11029004,
        dysp: 0.4359706,
      },
    ),
    ...rows(
      CHEST_CLINIC,
      { asia: 'yes', dysp: 'yes' },
      {
        tub: 0.08775096,
        lung: 0.09952515,
        bronc: 0.81140207,
        either: 0.18229985,
        smoke: 0.62591986,
        xray: 0.21953886,
      },
    ),
  ];
  it.each(titled(list))('should believe %s', (_, row) => agrees(row));
});

// Russell & Norvig.
describe('the sprinkler', () => {
  const list = [
    ...rows(SPRINKLER, {}, { wet: 0.6471 }),
    ...rows(SPRINKLER, { wet: 'yes' }, { sprinkler: 0.42976, rain: 0.70793 }),
    ...rows(SPRINKLER, { wet: 'yes', rain: 'yes' }, { sprinkler: 0.1945 }),
  ];
  it.each(titled(list))('should believe %s', (_, row) => agrees(row));
});

// Russell & Norvig; the network's own numbers from memory.
describe('the burglary', () => {
  const list = rows(BURGLARY, { john: 'yes', mary: 'yes' }, { burglary: 0.28417 });
  it.each(titled(list))('should believe %s', (_, row) => agrees(row));
});

// Jensen & Nielsen 2007.
describe('the car that does not start', () => {
  const no = (name: string, given: States, value: number): Row => ({
    network: CAR_START,
    wanted: { [name]: 'no' },
    given,
    value,
  });
  const list = [
    no('fuel', { start: 'no' }, 0.29319),
    no('clean', { start: 'no' }, 0.58063),
    no('fuel', { start: 'no', meter: 'half' }, 0.00069),
    no('clean', { start: 'no', meter: 'half' }, 0.80435),
  ];
  it.each(titled(list))('should believe %s', (_, row) => agrees(row));

  it('should believe the same whichever evidence comes first', () => {
    const first = believed(CAR_START, { clean: 'no' }, { start: 'no', meter: 'half' });
    const second = believed(CAR_START, { clean: 'no' }, { meter: 'half', start: 'no' });
    expect(first).toBeCloseTo(second, 12);
  });
});
