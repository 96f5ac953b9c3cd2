/** Plays cases until so many steps were shown, and counts every breach of safe order, roles and cautions. */
import { ROLES } from '../../src/knowledge/schema.ts';
import { play } from './play.ts';
import { POLICIES } from './policies.ts';
import { drawPatient } from './world.ts';

export const SEED = 20_260_406;

export interface Watched {
  cases: number;
  steps: number;
  /** What was wrong, and how often. */
  breaches: ReadonlyMap<string, number>;
}

/** Cases drawn uniformly over faults, so that rare ones are met as often as common ones. */
export function watched(steps: number): Watched {
  const breaches = new Map<string, number>();
  let shown = 0;
  let cases = 0;
  for (; shown < steps; cases += 1) {
    const patient = drawPatient(SEED + 104_729 * cases, ROLES[cases % ROLES.length]!, 'uniform');
    const ending = play(patient, POLICIES.padside, { judgeOrder: true });
    shown += ending.steps;
    for (const breach of ending.breaches) breaches.set(breach, (breaches.get(breach) ?? 0) + 1);
  }
  return { cases, steps: shown, breaches };
}
