/** Playing every fault at every kind of pool it can occur at, and what comes of it. */
import type { FaultId } from '../../src/knowledge/ids.ts';
import type { Equipment, Role } from '../../src/knowledge/schema.ts';
import { mayRepair } from '../../src/engine/situation.ts';
import { faultById, fits, TRADE } from '../../src/knowledge/trade.ts';
import { PROFILES } from './profiles.ts';
import type { Ending } from './person.ts';
import { consultOverJsonl } from './person.ts';
import { mulberry32 } from './random.ts';

export interface Run {
  fault: FaultId;
  equipment: Equipment;
  role: Role;
  ending: Ending;
}

export const SEED = 20_260_401;

/**
 * Every fault × every profile it applies to, for one role; of these every so many, where time is short. With
 * `careless`, one answer is wrong and two are unsure.
 */
export async function campaign(role: Role, careless: boolean, every = 1): Promise<Run[]> {
  const random = careless ? mulberry32(SEED) : undefined;
  const runs: Run[] = [];
  let place = 0;
  for (const equipment of PROFILES)
    for (const { id: fault, when } of TRADE.faults) {
      if (!fits(when, equipment) || place++ % every !== 0) continue;
      const ending = await consultOverJsonl({ fault, equipment, role }, random);
      runs.push({ fault, equipment, role, ending });
    }
  return runs;
}

/** The diagnosis is the fault; or, for a person who may not repair it, it is among the first three handed on. */
export function isNamed({ fault, role, ending }: Run): boolean {
  if (ending.fault === fault) return true;
  return !mayRepair(faultById(fault), role) && ending.firstThree.includes(fault);
}

export function quantile(values: readonly number[], q: number): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(q * sorted.length))] ?? NaN;
}

export const HEADER =
  '| answers | who | runs | named | cured | steps: median, 90 % | minutes: median, 90 % |\n|---|---|---|---|---|---|---|';

/** One row of the table of figures. */
export function row(answers: string, role: Role, runs: readonly Run[]): string {
  const share = (test: (run: Run) => boolean): string =>
    `${((100 * runs.filter(test).length) / runs.length).toFixed(1)} %`;
  const spread = (value: (ending: Ending) => number, digits: number): string => {
    const values = runs.map(({ ending }) => value(ending));
    return `${quantile(values, 0.5).toFixed(digits)}, ${quantile(values, 0.9).toFixed(digits)}`;
  };
  const cells = [
    answers,
    role,
    String(runs.length),
    share(isNamed),
    share(({ ending }) => ending.outcome === 'fixed'),
    spread(({ steps }) => steps, 0),
    spread(({ minutes }) => minutes, 1),
  ];
  return `| ${cells.join(' | ')} |`;
}
