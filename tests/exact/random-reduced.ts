/** Random small models: at most 7 faults (one of them with no repair) and 6 checks, set-ups, repairs that may fail. */
import type { OpenCheck, OpenRepair } from '../../src/calc/outlook.ts';
import type { Reduced } from './reduced.ts';

const PUMP_OFF = 1;
const LID_OPEN = 2;
const HOSE_OUT = 4;
/** Nothing, the pump off, the lid open, the hose out; whoever needs the pump running undoes all. */
const SET_UPS = [0, 0, PUMP_OFF, PUMP_OFF | LID_OPEN, PUMP_OFF | HOSE_OUT];

type Random = () => number;

const between = (random: Random, from: number, to: number): number => from + (to - from) * random();
const whole = (random: Random, from: number, to: number): number =>
  from + Math.floor(random() * (to - from + 1));
const pick = <T>(random: Random, of: readonly T[]): T => of[Math.floor(random() * of.length)]!;

/** Proportions that sum to one, some much larger than others. */
function shares(random: Random, count: number): number[] {
  const weights = Array.from({ length: count }, () => Math.pow(2, between(random, 0, 4)));
  const sum = weights.reduce((total, weight) => total + weight, 0);
  return weights.map((weight) => weight / sum);
}

/** A usual outcome under most causes, and another under those the check is for. */
function columns(
  random: Random,
  causes: number,
  outcomes: number,
  revealed: ReadonlySet<number>,
): number[][] {
  return Array.from({ length: causes }, (_, cause) => {
    const usual = revealed.has(cause) ? between(random, 0.03, 0.2) : between(random, 0.8, 0.97);
    const others = shares(random, outcomes - 1).map((share) => share * (1 - usual));
    return [usual, ...others];
  });
}

function randomCheck(random: Random, causes: number): { check: OpenCheck; revealed: ReadonlySet<number> } {
  const outcomes = random() < 0.6 ? 2 : 3;
  const count = pick(random, [1, 1, 2, 3]);
  const revealed = new Set(Array.from({ length: count }, () => Math.floor(random() * causes)));
  const table = columns(random, causes, outcomes, revealed);
  const needs = pick(random, SET_UPS);
  const check: OpenCheck = {
    minutes: pick(random, [0.5, 1, 1, 2, 3, 6]),
    class: needs === 0 ? pick(random, [0, 0, 1]) : 2,
    needs,
    keeps: needs === 0 && random() < 0.5 ? 0 : 7,
    likelihood: Array.from({ length: outcomes }, (_, outcome) => table.map((row) => row[outcome]!)),
    answered: 1,
  };
  return { check, revealed };
}

function randomRepair(random: Random, cause: number): OpenRepair {
  const needs = pick(random, SET_UPS);
  return {
    cause,
    minutes: pick(random, [2, 4, 5, 8, 8, 15, 25]),
    class: needs === 0 ? 1 : 2,
    needs,
    keeps: 0,
    cures: pick(random, [0.92, 0.97, 0.8, 1]),
    lookMinutes: Infinity,
    lookNeeds: 0,
    lookClass: 0,
    onlyAbove: 0,
  };
}

/** One random model; the last of its causes nobody here can repair. */
export function randomReduced(random: Random): Reduced {
  const causes = whole(random, 4, 7);
  const found = Array.from({ length: whole(random, 3, 6) }, () => randomCheck(random, causes));
  const repairs = Array.from({ length: causes - 1 }, (_, cause) => randomRepair(random, cause));
  const handOff = pick(random, [60, 120]);
  return {
    prior: shares(random, causes),
    checks: found.map(({ check }) => check),
    repairs,
    looks: repairs.map(({ cause }) =>
      found.flatMap(({ revealed }, index) => (revealed.size === 1 && revealed.has(cause) ? [index] : [])),
    ),
    setUps: [2, 2, 4],
    handOff: {
      minutes: handOff,
      blindMinutes: 60,
      suspects: 3,
      repairMinutes: [...repairs.map(({ minutes }) => minutes), 30],
    },
  };
}
