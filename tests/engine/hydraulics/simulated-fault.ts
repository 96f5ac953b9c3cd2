/** Severe faults done to simulated pools, in the pools' own terms. */
import type { Gauges } from '../../../src/calc/circulation.ts';
import type { Effect } from '../../../src/knowledge/schema.ts';
import {
  between,
  dischargeHeadM,
  gasAt,
  flowOf,
  readGauges,
  suctionConductance,
  type Random,
  type SimulatedPool,
} from './simulated-pool.ts';

export const SHOWN_EFFECTS = [
  'none',
  'cleaner-branch-blocked',
  'cleaner-branch-closed',
  'cleaner-branch-bypassed',
  'suction-blocked',
  'air-at-pump',
  'air-in-hose',
  'pump-curve-shrinks',
  'pump-speed-low',
  'no-flow',
  'filter-blocked',
  'filter-torn',
  'return-blocked',
  'gauge-stuck',
] as const satisfies readonly Effect[];
export type ShownEffect = (typeof SHOWN_EFFECTS)[number];

type Deed = (pool: SimulatedPool, random: Random) => SimulatedPool;

/** A hole that lets in this share of gas at the flow the pool had. */
function leakFor(pool: SimulatedPool, gas: number): number {
  const flow = flowOf(pool);
  const suctionM = (flow / suctionConductance(pool)) ** pool.suctionPower;
  const vacuumPa = Math.max(2000, (suctionM + pool.pumpHeightM) * 9780);
  return (flow * gas) / (1 - gas) / (0.6 * Math.sqrt((2 * vacuumPa) / 1.2));
}

const DEEDS: Record<ShownEffect, Deed> = {
  none: (pool) => pool,
  'gauge-stuck': (pool) => pool,
  'cleaner-branch-blocked': (pool, random) => ({ ...pool, hose: pool.hose * between(random, 0.08, 0.3) }),
  'cleaner-branch-closed': (pool, random) => ({
    ...pool,
    line: 1 / (1 / pool.line + 1 / (pool.hose * between(random, 0.1, 0.35))),
  }),
  'cleaner-branch-bypassed': (pool, random) =>
    random() < 0.5
      ? { ...pool, beside: pool.hose * between(random, 1.5, 4) }
      : { ...pool, other: pool.other * between(random, 4, 10) },
  'suction-blocked': (pool, random) => ({
    ...pool,
    common: 1 / (1 / pool.common + 1 / (suctionConductance(pool) * between(random, 0.3, 0.6))),
  }),
  'air-at-pump': (pool, random) => ({ ...pool, leakM2: leakFor(pool, between(random, 0.04, 0.065)) }),
  'air-in-hose': (pool, random) => ({
    ...pool,
    beside: pool.hose * between(random, 0.6, 1.5),
    leakM2: leakFor(pool, between(random, 0.02, 0.04)),
  }),
  'pump-curve-shrinks': (pool, random) => ({
    ...pool,
    impeller: between(random, 0.3, 0.55),
    shutOffM: pool.shutOffM * between(random, 0.85, 1),
  }),
  'pump-speed-low': (pool, random) => ({ ...pool, speed: between(random, 0.4, 0.65) }),
  'no-flow': (pool) => ({ ...pool, speed: 0 }),
  'filter-blocked': (pool, random) => {
    const flow = flowOf(pool);
    const added = (dischargeHeadM(pool, flow) / flow) * between(random, 1.5, 6);
    return { ...pool, media: pool.media + added };
  },
  'filter-torn': (pool, random) => ({ ...pool, media: pool.media * between(random, 0.03, 0.2) }),
  'return-blocked': (pool, random) => {
    const flow = flowOf(pool);
    const added = (dischargeHeadM(pool, flow) / flow ** pool.returnPower) * between(random, 1.5, 10);
    return { ...pool, returns: pool.returns + added };
  },
};

/** The pool with a severe fault of this effect. */
export function severely(effect: ShownEffect, pool: SimulatedPool, random: Random): SimulatedPool {
  return DEEDS[effect](pool, random);
}

/** Gas fraction from which the needle of a simulated pool shakes for sure, as near as a person can see it. */
const SURE_SHAKE = 0.018;

/** Whether a person sees the needle shake: air does it, and now and then something else. */
export function needleOf(pool: SimulatedPool, random: Random): 'steady' | 'shakes' {
  const flow = flowOf(pool);
  const gas = flow > 0 ? gasAt(pool, flow) : 0;
  return random() < 0.03 + 0.95 * Math.min(1, gas / SURE_SHAKE) ? 'shakes' : 'steady';
}

export interface SeverelyRead extends Gauges {
  needle: 'steady' | 'shakes';
}

/** The gauges of the pool with a severe fault; a stuck gauge stands at its pin or well off its clean reading. */
export function readSevere(effect: ShownEffect, pool: SimulatedPool, random: Random): SeverelyRead {
  const faulty = severely(effect, pool, random);
  const read = { ...readGauges(faulty, random), needle: needleOf(faulty, random) };
  if (effect !== 'gauge-stuck') return read;
  const places = [0, between(random, 0.3, 0.6), between(random, 1.4, 2.2)];
  return { ...read, filterPressurePa: read.filterPressurePa * places[Math.floor(random() * 3)]! };
}
