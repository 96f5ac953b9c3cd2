/**
 * Every fault at every kind of pool it can occur at, driven through the JSONL channel: with truthful answers, and
 * with one wrong and two unsure ones. Prints steps and minutes per role.
 */
import { describe, expect, it } from 'vitest';
import { mayRepair } from '../../src/engine/situation.ts';
import type { FaultId } from '../../src/knowledge/ids.ts';
import type { Equipment, Role } from '../../src/knowledge/schema.ts';
import { ROLES } from '../../src/knowledge/schema.ts';
import { faultById, fits, TRADE } from '../../src/knowledge/trade.ts';
import { PROFILES } from '../truth/profiles.ts';
import { mulberry32 } from '../truth/random.ts';
import type { Ending } from '../truth/person.ts';
import { consultOverJsonl } from '../truth/person.ts';

interface Run {
  fault: FaultId;
  equipment: Equipment;
  role: Role;
  ending: Ending;
}

function* situations(): Generator<Pick<Run, 'fault' | 'equipment' | 'role'>> {
  for (const role of ROLES)
    for (const equipment of PROFILES)
      for (const { id: fault, when } of TRADE.faults)
        if (fits(when, equipment)) yield { fault, equipment, role };
}

/** The fault is cured; or, for a person who may not repair it, it is among the first three handed on. */
function isNamed({ fault, role, ending }: Run): boolean {
  if (ending.fault === fault) return true;
  return !mayRepair(faultById(fault), role) && ending.firstThree.includes(fault);
}

function quantile(values: readonly number[], q: number): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[Math.min(sorted.length - 1, Math.floor(q * sorted.length))] ?? NaN;
}

function row(label: string, runs: readonly Run[]): string {
  const steps = runs.map(({ ending }) => ending.steps);
  const minutes = runs.map(({ ending }) => ending.minutes);
  const named = runs.filter(isNamed).length;
  const figures = [
    `runs ${runs.length}`,
    `named ${((100 * named) / runs.length).toFixed(2)} %`,
    `cured ${((100 * runs.filter(({ ending }) => ending.outcome === 'fixed').length) / runs.length).toFixed(1)} %`,
    `steps median ${quantile(steps, 0.5)} p90 ${quantile(steps, 0.9)}`,
    `minutes median ${quantile(minutes, 0.5).toFixed(1)} p90 ${quantile(minutes, 0.9).toFixed(1)}`,
  ];
  return `${label.padEnd(28)} ${figures.join(', ')}`;
}

function byRole(label: string, runs: readonly Run[]): string {
  return ROLES.map((role) =>
    row(
      `${label}, ${role}`,
      runs.filter((run) => run.role === role),
    ),
  ).join('\n');
}

describe('every fault at every kind of pool', () => {
  it('should end with the fault named when all answers are true', { timeout: 600_000 }, async () => {
    const runs: Run[] = [];
    for (const situation of situations())
      runs.push({ ...situation, ending: await consultOverJsonl(situation) });
    console.log(byRole('true answers', runs));
    const missed = runs.filter((run) => !isNamed(run));
    expect(missed.map(({ fault, role, equipment, ending }) => ({ fault, role, equipment, ending }))).toEqual(
      [],
    );
    const owners = runs.filter(({ role }) => role === 'owner');
    expect(
      quantile(
        owners.map(({ ending }) => ending.steps),
        0.5,
      ),
    ).toBeLessThanOrEqual(8);
  });

  it(
    'should name it nine times in ten with one wrong and two unsure answers',
    { timeout: 600_000 },
    async () => {
      const seed = 20_260_401;
      const random = mulberry32(seed);
      const runs: Run[] = [];
      for (const situation of situations())
        runs.push({ ...situation, ending: await consultOverJsonl(situation, random) });
      console.log(`seed ${seed}\n${byRole('one wrong, two unsure', runs)}`);
      expect(runs.filter(isNamed).length / runs.length).toBeGreaterThanOrEqual(0.9);
    },
  );
});
