/**
 * Pools with one fault each, drawn apart from the engine's own tables: shares and outcomes of this world lie around
 * them with the spreads stated here, and gauges follow the hydraulics of a pool drawn here, with noise of its own.
 */
import type { Gauges as LoopGauges, PoolLoop } from '../../src/calc/circulation.ts';
import { operatingPoint, restingGauges } from '../../src/calc/circulation.ts';
import { genericPumpCurve } from '../../src/calc/pump-curve.ts';
import { typicalLoop } from '../../src/calc/typical-loop.ts';
import { PA_PER_INHG, PA_PER_PSI, W_PER_HP } from '../../src/calc/units.ts';
import type { Gauges, Setting } from '../../src/engine/case.ts';
import { loopUnderFault } from '../../src/engine/hydraulics/faults.ts';
import { DEFAULT_COSTS } from '../../src/knowledge/costs.ts';
import type { ComplaintId, FaultId, Quantity } from '../../src/knowledge/ids.ts';
import { QUANTITIES } from '../../src/knowledge/ids.ts';
import type { Equipment, Fault, Role } from '../../src/knowledge/schema.ts';
import { complaintById, fits, TRADE } from '../../src/knowledge/trade.ts';
import { PROFILES } from '../../tests/truth/profiles.ts';
import { mulberry32 } from '../../tests/truth/random.ts';
import type { Random } from './chance.ts';
import { drawn, lognormal, normal, pick } from './chance.ts';

/** Standard deviation of the logarithm of each fault's share in this world against the table's. */
const SHARE_SPREAD = 0.3;
/** The same for each loss of a pool against a typical one. */
const LOSS_SPREAD = 0.35;
/** Noise of a gauge: share of the reading, and an offset. */
const GAUGE = { share: 0.04, pressurePa: 0.3 * PA_PER_PSI, suctionPa: 0.2 * PA_PER_INHG };
/** How many pools have clean readings on record. */
const RECORDED = 0.5;
/** How many people have the instrument. Common practice, no source. */
const HAS: Record<Role, Record<Quantity, number>> = {
  owner: { 'filter-pressure': 0.88, 'pump-vacuum': 0.12, 'cleaner-suction': 0.1, 'wheel-turns': 0.75 },
  technician: { 'filter-pressure': 0.95, 'pump-vacuum': 0.6, 'cleaner-suction': 0.5, 'wheel-turns': 0.9 },
};
const OFTEN = { 1: 1, 2: 2, 3: 4, 4: 8, 5: 16 } as const;

export interface Patient {
  setting: Setting;
  fault: Fault;
  /** A second fault at work at the same time. */
  also?: Fault;
  /** The pool once one of two faults was cured: with the other one alone. */
  once?: ReadonlyMap<FaultId, Patient>;
  /** What each instrument shows; missing where there is none. */
  shows: Gauges;
  /** The person says that a needle shakes. */
  shakes: boolean;
  /** Every check is answered from its own stream, whoever asks and whenever. */
  seed: number;
}

const DRIVEN = ['suction', 'pressure-booster', 'pressure-return'];

/** Weight with which a fault is complained of in these words at such a pool. */
function complaintWeight(fault: Fault, id: ComplaintId, equipment: Equipment): number {
  const complaint = complaintById(id);
  if (!fits(complaint.when, equipment)) return 0;
  const ofCirculation = fault.when.cleaner === undefined;
  const foreign = complaint.ofCleaner && ofCirculation && !DRIVEN.includes(equipment.cleaner ?? '');
  return foreign ? 0 : (fault.complaints[id] ?? 0);
}

interface Pairing {
  fault: Fault;
  complaint: ComplaintId;
  weight: number;
}

function pairings(equipment: Equipment): Pairing[] {
  return TRADE.faults
    .filter((fault) => fits(fault.when, equipment))
    .flatMap((fault) =>
      (Object.keys(fault.complaints) as ComplaintId[]).map((complaint) => ({
        fault,
        complaint,
        weight: complaintWeight(fault, complaint, equipment),
      })),
    )
    .filter(({ weight }) => weight > 0);
}

/** By prior: as often as the fault is met. Uniformly: every fault of the pool alike. */
export type Draw = 'prior' | 'uniform';

function drawPairing(random: Random, equipment: Equipment, draw: Draw): Pairing {
  const all = pairings(equipment);
  if (draw === 'prior') {
    const shares = new Map(all.map(({ fault }) => [fault.id, OFTEN[fault.often]]));
    for (const [fault, share] of shares) shares.set(fault, (share * lognormal(random, SHARE_SPREAD)) as 1);
    return all[
      drawn(
        random,
        all.map(({ fault, weight }) => weight * shares.get(fault.id)!),
      )
    ]!;
  }
  const fault = pick(random, [...new Set(all.map((pairing) => pairing.fault))]);
  const own = all.filter((pairing) => pairing.fault === fault);
  return own[
    drawn(
      random,
      own.map(({ weight }) => weight),
    )
  ]!;
}

function drawLoop(random: Random, equipment: Equipment): PoolLoop {
  const hp = pick(random, [0.75, 1, 1.5, 2]);
  const speedRatio = equipment.pump === 'variable-speed' ? 0.65 + 0.35 * random() : 1;
  const pumpCurve = genericPumpCurve(hp * W_PER_HP * lognormal(random, 0.1));
  const loop = typicalLoop({ pumpCurve, speedRatio, filterType: equipment.filter ?? 'sand' });
  const vary = (): number => lognormal(random, LOSS_SPREAD);
  const { cleaner, other, filter } = loop;
  const hose = equipment.cleaner === 'suction' ? 1 : 0.25;
  return {
    ...loop,
    cleaner: { ...cleaner, hoseLoss: cleaner.hoseLoss * hose * vary(), lineLoss: cleaner.lineLoss * vary() },
    other: { ...other, loss: other.loss * vary() },
    commonLoss: loop.commonLoss * vary(),
    filter: { linear: filter.linear * vary(), square: filter.square * vary() },
    returnLoss: loop.returnLoss * vary(),
    pumpAbovePoolM: 0.1 + 0.6 * random(),
    gaugeAbovePoolM: 0.4 + 0.8 * random(),
    waterC: 18 + 12 * random(),
  };
}

function gaugesOf(loop: PoolLoop): LoopGauges {
  const point = operatingPoint(loop);
  return point.kind === 'flowing' ? point : restingGauges(loop);
}

/** A needle shakes with air, and most people say so; now and then one shakes without. */
const SHAKES = { calm: 0.02, airy: 0.7, plentyOfAir: 0.03 };

function shakesAt(random: Random, loop: PoolLoop): boolean {
  const point = operatingPoint(loop);
  const air = point.kind === 'flowing' ? point.airFraction : 0;
  return random() < SHAKES.calm + (SHAKES.airy - SHAKES.calm) * Math.min(1, air / SHAKES.plentyOfAir);
}

const WHEEL_TURNS = 30;

function wheelTurns(random: Random, { effect }: Fault): number {
  if (effect === 'cleaner-pressure-off' || effect === 'no-flow') return 0;
  const ratio = effect === 'cleaner-pressure-low' ? Math.exp(-0.15 - 0.65 * random()) : 1;
  return WHEEL_TURNS * ratio;
}

interface TrueReadings {
  clean: Gauges;
  now: Gauges;
  shakes: boolean;
}

/** What the instruments would show without noise: clean, and with the faults at a severity drawn evenly. */
function trueReadings(random: Random, faults: readonly Fault[], equipment: Equipment): TrueReadings {
  const loop = drawLoop(random, equipment);
  const severity = 0.15 + 0.85 * random();
  const faulty = faults.reduce((sofar, { effect }) => loopUnderFault(sofar, effect, severity), loop);
  const asGauges = (gauges: LoopGauges, turns: number): Gauges => ({
    'filter-pressure': gauges.filterPressurePa,
    'pump-vacuum': gauges.pumpVacuumPa,
    'cleaner-suction': gauges.cleanerSuctionPa,
    'wheel-turns': turns,
  });
  const clean = asGauges(gaugesOf(loop), WHEEL_TURNS);
  const now = asGauges(gaugesOf(faulty), Math.min(...faults.map((fault) => wheelTurns(random, fault))));
  const stuckAt = random() < 0.2 ? 0 : clean['filter-pressure']! * (0.4 + 1.4 * random());
  const stuck = faults.some(({ effect }) => effect === 'gauge-stuck');
  return {
    clean,
    now: stuck ? { ...now, 'filter-pressure': stuckAt } : now,
    shakes: shakesAt(random, faulty),
  };
}

function noisy(random: Random, quantity: Quantity, value: number): number {
  const share = value * (1 + GAUGE.share * normal(random));
  if (quantity === 'wheel-turns') return Math.max(0, Math.round(share));
  const offset = quantity === 'filter-pressure' ? GAUGE.pressurePa : GAUGE.suctionPa;
  return value <= 0 ? 0 : Math.max(0, share + offset * normal(random));
}

/** The pool of this seed with these faults; its losses, gauges and people are the same whatever the faults. */
function patientWith(
  seed: number,
  role: Role,
  equipment: Equipment,
  faults: Fault[],
  complaint: ComplaintId,
): Patient {
  const random = mulberry32(seed ^ 0x5bd1e995);
  const [fault, also] = faults;
  const { clean, now, shakes } = trueReadings(random, faults, equipment);
  const recorded = random() < RECORDED;
  const shows: Gauges = {};
  const baseline: Gauges = {};
  for (const quantity of QUANTITIES) {
    const has = random() < HAS[role][quantity];
    const asClean = noisy(random, quantity, clean[quantity]!);
    const reading = noisy(random, quantity, now[quantity]!);
    if (has) shows[quantity] = reading;
    if (has && recorded) baseline[quantity] = asClean;
  }
  const known = { baseline, cleanSets: Object.keys(baseline).length > 0 ? [baseline] : [] };
  const setting: Setting = {
    complaint,
    equipment,
    role,
    ...known,
    missing: [],
    history: {},
    costs: DEFAULT_COSTS,
  };
  return { setting, fault: fault!, ...(also && { also }), shows, shakes, seed };
}

/** One pool with one fault and a person of this role beside it. */
export function drawPatient(seed: number, role: Role, draw: Draw): Patient {
  const random = mulberry32(seed);
  const equipment = pick(random, PROFILES);
  const { fault, complaint } = drawPairing(random, equipment, draw);
  return patientWith(seed, role, equipment, [fault], complaint);
}

/** One pool with two faults at once, the second drawn as often as it is met among those that fit the complaint. */
export function drawTwofold(seed: number, role: Role): Patient {
  const random = mulberry32(seed);
  const equipment = pick(random, PROFILES);
  const { fault, complaint } = drawPairing(random, equipment, 'prior');
  const others = pairings(equipment).filter((one) => one.complaint === complaint && one.fault !== fault);
  if (others.length === 0) return drawTwofold(seed + 1, role);
  const weights = others.map((one) => one.weight * OFTEN[one.fault.often]);
  const also = others[drawn(random, weights)]!.fault;
  const alone = (one: Fault): Patient => patientWith(seed, role, equipment, [one], complaint);
  return {
    ...patientWith(seed, role, equipment, [fault, also], complaint),
    once: new Map([
      [fault.id, alone(also)],
      [also.id, alone(fault)],
    ]),
  };
}
