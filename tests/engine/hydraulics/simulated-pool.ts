/**
 * Pools for the tests, from another mould than the model's: pipe friction with a power below two, pump curves of
 * other shapes, losses shared out from a design flow, gauges with a lasting error of their own and coarse marks.
 * Nothing here calls the solver, the typical loop or the severity ranges under test. SI; heads in m.
 */
import type { Gauges } from '../../../src/calc/circulation.ts';
import type { Equipment } from '../../../src/knowledge/schema.ts';

export type Random = () => number;

/** Mulberry32: a small seeded generator. */
export function randomFrom(seed: number): Random {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) >>> 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

export function between(random: Random, from: number, to: number): number {
  return from + (to - from) * random();
}

export function normal(random: Random): number {
  return Math.sqrt(-2 * Math.log(1 - random())) * Math.cos(2 * Math.PI * random());
}

export function oneOf<T>(random: Random, values: readonly T[]): T {
  return values[Math.floor(random() * values.length)]!;
}

export interface SimulatedPool {
  equipment: Equipment;
  ratedPowerW: number;
  shutOffM: number;
  largestFlow: number;
  /** H = s² H0 (1 − (Q / (s r Qmax))^n). */
  curvePower: number;
  speed: number;
  impeller: number;
  /** Conductances G of the suction: Q = G h^(1/m). */
  suctionPower: number;
  hose: number;
  beside: number;
  line: number;
  other: number;
  common: number;
  media: number;
  ports: number;
  returns: number;
  returnPower: number;
  pumpHeightM: number;
  gaugeHeightM: number;
  leakM2: number;
  /** Gas fraction of half the head, and that at which prime goes. */
  halfHeadGas: number;
  primeGas: number;
  gaugeBias: readonly [number, number, number];
  /** Flow and head of the printed curve over the pump's own. */
  printError: readonly [number, number];
}

const GPM = 6.30902e-5;
const WEIGHT = 9780;
const PA = { psi: 6894.757, inHg: 3386.389 };

function series(power: number, ...conductances: number[]): number {
  return conductances.reduce((sum, g) => sum + g ** -power, 0) ** (-1 / power);
}

function suctionConductance(pool: SimulatedPool): number {
  const m = pool.suctionPower;
  return series(m, series(m, pool.hose + pool.beside, pool.line) + pool.other, pool.common);
}

/** A pool drawn at random: wider than what the model expects. */
export function drawPool(random: Random): SimulatedPool {
  const hp = oneOf(random, [0.5, 0.75, 1, 1, 1.5, 1.5, 2, 3]);
  const shutOffM = 20 * hp ** 0.25 * Math.exp(0.18 * normal(random));
  const largestFlow = 100 * GPM * hp ** 0.42 * Math.exp(0.2 * normal(random));
  const curvePower = between(random, 1.6, 2.6);
  const design = largestFlow * between(random, 0.35, 0.8);
  const headM = shutOffM * (1 - (design / largestFlow) ** curvePower);
  const suctionM = headM * between(random, 0.12, 0.45);
  const m = between(random, 1.8, 2);
  const cleanerShare = between(random, 0.45, 0.9);
  const commonM = suctionM * between(random, 0.08, 0.35);
  const branchM = suctionM - commonM;
  const testerM = branchM * between(random, 0.7, 0.97);
  const conductance = (flow: number, head: number): number => flow / head ** (1 / m);
  const dischargeM = headM - suctionM;
  const filterM = dischargeM * between(random, 0.1, 0.5);
  const mediaM = filterM * between(random, 0.35, 0.85);
  const returnPower = between(random, 1.8, 2);
  const pumpHeightM = between(random, -0.5, 1.2);
  return {
    equipment: {
      cleaner: 'suction',
      connection: oneOf(random, ['skimmer', 'port'] as const),
      pump: 'single-speed',
      filter: oneOf(random, ['sand', 'cartridge', 'de'] as const),
    },
    ratedPowerW: hp * 745.7,
    shutOffM,
    largestFlow,
    curvePower,
    speed: 1,
    impeller: 1,
    suctionPower: m,
    hose: conductance(design * cleanerShare, testerM),
    beside: 0,
    line: conductance(design * cleanerShare, branchM - testerM),
    other: conductance(design * (1 - cleanerShare), branchM),
    common: conductance(design, commonM),
    media: mediaM / design,
    ports: (filterM - mediaM) / design ** 2,
    returns: (dischargeM - filterM) / design ** returnPower,
    returnPower,
    pumpHeightM,
    gaugeHeightM: pumpHeightM + between(random, 0.2, 1.1),
    leakM2: 0,
    halfHeadGas: between(random, 0.045, 0.065),
    primeGas: between(random, 0.07, 0.1),
    gaugeBias: [normal(random), normal(random), normal(random)],
    printError: [Math.exp(0.03 * normal(random)), Math.exp(0.03 * normal(random))],
  };
}

function suctionHeadM(pool: SimulatedPool, flow: number): number {
  return (flow / suctionConductance(pool)) ** pool.suctionPower;
}

function dischargeHeadM(pool: SimulatedPool, flow: number): number {
  return pool.media * flow + pool.ports * flow ** 2 + pool.returns * flow ** pool.returnPower;
}

function gasAt(pool: SimulatedPool, flow: number): number {
  const vacuumPa = Math.max(0, suctionHeadM(pool, flow) + pool.pumpHeightM) * WEIGHT;
  const air = 0.6 * pool.leakM2 * Math.sqrt((2 * vacuumPa) / 1.2);
  return air / (air + flow);
}

function surplusM(pool: SimulatedPool, flow: number): number {
  const through = flow / (pool.speed * pool.impeller * pool.largestFlow);
  const pumpM = pool.speed ** 2 * pool.shutOffM * (1 - through ** pool.curvePower);
  const kept = 1 / (1 + (gasAt(pool, flow) / pool.halfHeadGas) ** 6);
  const boils = suctionHeadM(pool, flow) + pool.pumpHeightM > 9.8;
  return boils ? -1 : pumpM * kept - suctionHeadM(pool, flow) - dischargeHeadM(pool, flow);
}

/** The flow by scanning downward from the largest and halving; 0 where nothing flows or the prime goes. */
export function flowOf(pool: SimulatedPool): number {
  if (pool.speed === 0) return 0;
  const most = pool.speed * pool.impeller * pool.largestFlow;
  const steps = 400;
  for (let step = steps - 1; step >= 1; step -= 1) {
    let low = (most * step) / steps;
    if (surplusM(pool, low) < 0) continue;
    let high = (most * (step + 1)) / steps;
    for (let halving = 0; halving < 40; halving += 1) {
      const middle = (low + high) / 2;
      if (surplusM(pool, middle) < 0) high = middle;
      else low = middle;
    }
    return gasAt(pool, low) > pool.primeGas ? 0 : low;
  }
  return 0;
}

function trueGauges(pool: SimulatedPool): [number, number, number] {
  const flow = flowOf(pool);
  const m = pool.suctionPower;
  const branches = series(m, pool.hose + pool.beside, pool.line);
  const junctionM = (flow / (branches + pool.other)) ** m;
  const branchFlow = branches * junctionM ** (1 / m);
  return [
    Math.max(0, dischargeHeadM(pool, flow) - pool.gaugeHeightM) * WEIGHT,
    Math.max(0, suctionHeadM(pool, flow) + pool.pumpHeightM) * WEIGHT,
    (branchFlow / (pool.hose + pool.beside)) ** m * WEIGHT,
  ];
}

const SD_LEAST = [0.7 * PA.psi, 0.5 * PA.inHg, 0.3 * PA.inHg] as const;
const SD_SHARE = [0.04, 0.05, 0.08] as const;
const MARK = [0.5 * PA.psi, 0.5 * PA.inHg, 0.25 * PA.inHg] as const;

/** Gauges read by a person: a lasting error of the gauge, one of the moment, shaking with air, the nearest mark. */
export function readGauges(pool: SimulatedPool, random: Random): Gauges {
  const flow = flowOf(pool);
  const shake = flow > 0 ? Math.min(0.2, 3 * gasAt(pool, flow)) : 0;
  const shown = trueGauges(pool).map((value, place) => {
    const sd = Math.max(SD_LEAST[place]!, SD_SHARE[place]! * value);
    const error = sd * Math.SQRT1_2 * (pool.gaugeBias[place]! + normal(random));
    const read = value * (1 + shake * normal(random)) + (value > 0 ? error : Math.abs(error) / 3);
    return Math.max(0, Math.round(read / MARK[place]!) * MARK[place]!);
  });
  return { filterPressurePa: shown[0]!, pumpVacuumPa: shown[1]!, cleanerSuctionPa: shown[2]! };
}

/** The pool on some later day in order: its filter a little dirtier. */
export function laterDay(pool: SimulatedPool, random: Random): SimulatedPool {
  return { ...pool, media: pool.media * between(random, 1, 1.7) };
}

/** A pool that works: the pump well within what it can draw and its gauges on their scales. */
export function drawWorkingPool(random: Random): SimulatedPool {
  for (;;) {
    const pool = drawPool(random);
    const [pressure, vacuum] = trueGauges(pool);
    if (vacuum < 18 * PA.inHg && vacuum > 1.5 * PA.inHg && pressure > 3 * PA.psi) return pool;
  }
}

export { dischargeHeadM, gasAt, suctionConductance };
