/** Plays cases until so many steps were shown, and counts every breach of safe order, roles and cautions. */
import { fork } from 'node:child_process';
import { once } from 'node:events';
import { availableParallelism } from 'node:os';
import { fileURLToPath } from 'node:url';
import { ROLES } from '../../src/knowledge/schema.ts';
import { play } from './play.ts';
import { POLICIES } from './policies.ts';
import { drawPatient } from './world.ts';

export const SEED = 20_260_406;

export interface Watched {
  cases: number;
  steps: number;
  /** What was wrong in each breach. */
  breaches: string[];
}

/**
 * Cases drawn uniformly over faults, so that rare ones are met as often as common ones. Of all cases this lane takes
 * every one whose number leaves `lane` when divided by `lanes`.
 */
export function watched(steps: number, lane = 0, lanes = 1): Watched {
  const seen: Watched = { cases: 0, steps: 0, breaches: [] };
  for (let index = lane; seen.steps < steps; index += lanes) {
    const role = ROLES[Math.floor(index / lanes) % ROLES.length]!;
    const patient = drawPatient(SEED + 104_729 * index, role, 'uniform');
    const ending = play(patient, POLICIES.padside, { judgeOrder: true });
    seen.cases += 1;
    seen.steps += ending.steps;
    seen.breaches.push(...ending.breaches);
  }
  return seen;
}

async function inProcess(steps: number, lane: number, lanes: number): Promise<Watched> {
  const script = fileURLToPath(new URL('./safety-lane.ts', import.meta.url));
  const child = fork(script, [String(steps), String(lane), String(lanes)]);
  const failed = once(child, 'exit').then(([code]) => {
    throw new Error(`Lane ${lane} ended with code ${String(code)}`);
  });
  const [message] = (await Promise.race([once(child, 'message'), failed])) as [Watched];
  return message;
}

/** The same shared among as many processes as there are processors. */
export async function watchedByAll(steps: number): Promise<Watched> {
  const lanes = availableParallelism();
  const parts = await Promise.all(
    Array.from({ length: lanes }, (_, lane) => inProcess(Math.ceil(steps / lanes), lane, lanes)),
  );
  return {
    cases: parts.reduce((sum, part) => sum + part.cases, 0),
    steps: parts.reduce((sum, part) => sum + part.steps, 0),
    breaches: parts.flatMap((part) => part.breaches),
  };
}
