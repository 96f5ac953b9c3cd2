/** Random pool loops and their EPANET input files: two suction branches, common line, pump, filter, return. */
import type { Pipe } from '../../src/calc/pipe-friction.ts';

export const POOL_LEVEL_M = 100;
const PIPES = ['hose', 'line', 'other', 'common', 'return'] as const;

export type PipeName = (typeof PIPES)[number];
interface Run extends Pipe {
  readonly roughnessC: number;
  readonly zeta: number;
}
export interface Network {
  readonly pipes: Record<PipeName, Run>;
  readonly shutOffHeadM: number;
  readonly largestFlow: number;
  readonly speedRatio: number;
  readonly filter: { readonly linear: number; readonly square: number };
}

/** mulberry32: a small published generator, so that a failing network can be made again. */
export function randomFrom(seed: number): (low: number, high: number) => number {
  let state = seed;
  return (low, high) => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return low + (((mixed ^ (mixed >>> 14)) >>> 0) / 4_294_967_296) * (high - low);
  };
}

/** Pipes with friction of 2 to 60 m, or, for the square kind, a millimetre of pipe with fittings alone. */
export function randomNetwork(random: (low: number, high: number) => number, withFriction: boolean): Network {
  const run = (zetaLow: number, zetaHigh: number): Run => ({
    lengthM: withFriction ? random(2, 60) : 0.001,
    diameterM: random(0.038, 0.063),
    roughnessC: random(120, 150),
    zeta: random(zetaLow, zetaHigh),
  });
  return {
    pipes: {
      hose: run(3, 40),
      line: run(0.5, 6),
      other: run(5, 80),
      common: run(0.5, 8),
      return: run(5, 40),
    },
    shutOffHeadM: random(8, 28),
    largestFlow: random(0.004, 0.011),
    speedRatio: random(0.5, 1),
    filter: { linear: random(50, 800), square: random(5e4, 3e5) },
  };
}

/** EPANET's input file, litres a second and metres. Three pump points with heads 1, ¾ and 0 make its exponent 2. */
export function inputFile(network: Network): string {
  const ends: Record<PipeName, string> = {
    hose: 'POOL TESTER',
    line: 'TESTER MEET',
    other: 'POOL MEET',
    common: 'MEET INLET',
    return: 'TANK BACK',
  };
  const pipes = PIPES.map((name) => {
    const pipe = network.pipes[name];
    return `${name} ${ends[name]} ${pipe.lengthM} ${pipe.diameterM * 1000} ${pipe.roughnessC} ${pipe.zeta} OPEN`;
  });
  const litres = network.largestFlow * 1000;
  const filterPoints = Array.from({ length: 201 }, (_, index) => {
    const flow = (network.largestFlow * index) / 200;
    return `filter ${flow * 1000} ${network.filter.linear * flow + network.filter.square * flow * flow}`;
  });
  return [
    '[JUNCTIONS]',
    ...['TESTER', 'MEET', 'INLET', 'GAUGE', 'TANK'].map((name) => `${name} 0 0`),
    '[RESERVOIRS]',
    `POOL ${POOL_LEVEL_M}`,
    `BACK ${POOL_LEVEL_M}`,
    '[PIPES]',
    ...pipes,
    '[PUMPS]',
    `pump INLET GAUGE HEAD pump SPEED ${network.speedRatio}`,
    '[VALVES]',
    'filter GAUGE TANK 50 GPV filter 0',
    '[CURVES]',
    `pump 0 ${network.shutOffHeadM}`,
    `pump ${litres / 2} ${network.shutOffHeadM * 0.75}`,
    `pump ${litres} 0`,
    ...filterPoints,
    '[OPTIONS]',
    'Units LPS',
    'Headloss H-W',
    'Accuracy 0.00001',
    'Trials 500',
    '[END]',
  ].join('\n');
}
