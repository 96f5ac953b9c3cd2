/** Choosing the next step: the permitted check or repair with the least expected cost of repair, inside the safe order. */
import { afterFailedRepair, updated } from '../calc/belief.ts';
import { expectedCostOfRepair } from '../calc/repair-sequence.ts';
import type { CheckId, FaultId, Quantity } from '../knowledge/ids.ts';
import type { Check, Role } from '../knowledge/schema.ts';
import type { Case, Setting } from './case.ts';
import type { OpenRepair, Situation } from './situation.ts';
import { situationOf } from './situation.ts';

export type Plan =
  | { kind: 'check'; check: CheckId; minutes: number; saving: number }
  | { kind: 'repair'; fault: FaultId; minutes: number; saving: number }
  | { kind: 'hand-off' };

/** Expected minutes to the end from a belief, going on with repairs and the hand-off alone. */
function costToGo(belief: readonly number[], { table, handOff }: Situation, without?: number): number {
  return expectedCostOfRepair(belief, table, handOff, without);
}

/** Repairs that could pay: none saves more than all that is still to go, times the chance that it cures. */
function worthTrying({ repairs, belief, handOff }: Situation): OpenRepair[] {
  const most = handOff.minutes + handOff.blindMinutes + Math.max(0, ...(handOff.repairMinutes ?? []));
  return repairs.filter(({ cause, cures, minutes, onlyAbove }) => {
    const p = belief[cause] ?? 0;
    return p > onlyAbove && p * cures * most > minutes;
  });
}

/** How often each role has the instrument a reading needs, where the pool's record does not tell. Common practice, no source. */
const HAS_INSTRUMENT: Record<Role, Record<Quantity, number>> = {
  owner: { 'filter-pressure': 0.85, 'pump-vacuum': 0.1, 'cleaner-suction': 0.1, 'wheel-turns': 0.8 },
  technician: { 'filter-pressure': 0.95, 'pump-vacuum': 0.6, 'cleaner-suction': 0.5, 'wheel-turns': 0.9 },
};

/** Probability that a check can be answered at all: a gauge may not be there. */
function chanceOfAnswer({ quantity }: Check, setting: Setting): number {
  if (quantity === undefined || setting.baseline[quantity] !== undefined) return 1;
  return HAS_INSTRUMENT[setting.role][quantity];
}

interface Candidate {
  plan: Exclude<Plan, { kind: 'hand-off' }>;
  class: number;
  /** Expected minutes to the end if this comes next. */
  cost: number;
}

function checkCandidate(
  { check, minutes }: Situation['checks'][number],
  toGo: number,
  situation: Situation,
): Candidate {
  const { model, setting, belief } = situation;
  const withAnswer = model.likelihood(check).reduce((sum, likelihood) => {
    const probability = belief.reduce((total, p, cause) => total + p * (likelihood[cause] ?? 0), 0);
    return probability > 0 ? sum + probability * costToGo(updated(belief, likelihood), situation) : sum;
  }, 0);
  const answered = chanceOfAnswer(check, setting);
  const afterwards = answered * withAnswer + (1 - answered) * toGo;
  const plan = { kind: 'check', check: check.id, minutes, saving: toGo - afterwards } as const;
  return { plan, class: check.class, cost: minutes + afterwards };
}

function repairCandidate(repair: OpenRepair, situation: Situation): Candidate {
  const { belief } = situation;
  const { fault, cause, minutes, cures } = repair;
  const cured = (belief[cause] ?? 0) * cures;
  const failed = afterFailedRepair(belief, cause, cures);
  const afterwards = (1 - cured) * costToGo(failed, situation, cause);
  const saving = costToGo(belief, situation, cause) - afterwards;
  return {
    plan: { kind: 'repair', fault: fault.id, minutes, saving },
    class: fault.repair.class,
    cost: minutes + afterwards,
  };
}

function paysForItself({ plan }: Candidate): boolean {
  return plan.saving > plan.minutes;
}

function candidatesOf(situation: Situation): Candidate[] {
  const toGo = costToGo(situation.belief, situation);
  return [
    ...situation.checks.map((check) => checkCandidate(check, toGo, situation)),
    ...worthTrying(situation).map((repair) => repairCandidate(repair, situation)),
  ];
}

/**
 * A repair is not tried blind where a look tells at less cost whether its fault is there: then the look comes first,
 * if it is of no higher class.
 */
function lookBeforeRepair(best: Candidate, situation: Situation): Plan {
  if (best.plan.kind === 'check') return best.plan;
  const { fault: id } = best.plan;
  const repair = situation.repairs.find(({ fault }) => fault.id === id);
  if (repair?.look === undefined || repair.look.check.class > best.class) return best.plan;
  const found = situation.belief[repair.cause] ?? 0;
  if (repair.lookMinutes + found * repair.minutes >= repair.minutes) return best.plan;
  const { check, minutes } = repair.look;
  return { kind: 'check', check: check.id, minutes, saving: best.plan.saving };
}

/**
 * The next step of a case. A step of a higher class is proposed only where none of a lower class still pays for
 * itself; among those of the lowest class that do, the one with the least expected cost.
 */
export function planOf(oneCase: Case): Plan {
  const situation = situationOf(oneCase);
  const paying = candidatesOf(situation).filter(paysForItself);
  const lowest = Math.min(...paying.map((candidate) => candidate.class));
  const [best] = paying.filter((candidate) => candidate.class === lowest).sort((a, b) => a.cost - b.cost);
  return best === undefined ? { kind: 'hand-off' } : lookBeforeRepair(best, situation);
}
