/** The exact optimum of a small model by dynamic programming, and the exact expected cost of a policy on it. */
import type { Choice, StepChoice } from '../../src/calc/outlook.ts';
import { handOffNow } from '../../src/calc/outlook.ts';
import { inSafeOrder } from '../../src/calc/safe-order.ts';
import type { Reduced, State, View } from './reduced.ts';
import { atFirst, keyOf, outcomesOf, viewOf } from './reduced.ts';

/** Steps permitted in a state; the hand-off always is. */
export type Permitted = (view: View) => readonly StepChoice[];

/** Whatever is open, in any order. */
export const anyOrder: Permitted = ({ outlook }) => [
  ...outlook.checks.map((_, index): StepChoice => ({ kind: 'check', index })),
  ...outlook.repairs.map((_, index): StepChoice => ({ kind: 'repair', index })),
];

/** The safe order, as the planner has it. */
export const safeOrder: Permitted = (view) => {
  const { highestClass } = inSafeOrder(view.outlook);
  return anyOrder(view).filter(({ kind, index }) => {
    const step = kind === 'check' ? view.outlook.checks[index] : view.outlook.repairs[index];
    return step!.class <= highestClass;
  });
};

export type Policy = (view: View) => Choice;

function expected(
  model: Reduced,
  state: State,
  view: View,
  choice: Choice,
  rest: (state: State) => number,
): number {
  if (choice.kind === 'hand-off') return handOffNow(view.outlook);
  const { minutes, branches } = outcomesOf(model, state, view, choice);
  return branches.reduce(
    (sum, branch) => (branch.probability > 1e-12 ? sum + branch.probability * rest(branch.state) : sum),
    minutes,
  );
}

export interface Solved {
  cost: number;
  first: Choice;
  states: number;
}

/** Least expected minutes over every policy that takes permitted steps. */
export function optimum(model: Reduced, permitted: Permitted): Solved {
  const known = new Map<string, { cost: number; choice: Choice }>();
  const solve = (state: State): { cost: number; choice: Choice } => {
    const key = keyOf(state);
    const seen = known.get(key);
    if (seen !== undefined) return seen;
    const view = viewOf(model, state);
    let best: { cost: number; choice: Choice } = {
      cost: handOffNow(view.outlook),
      choice: { kind: 'hand-off' },
    };
    for (const choice of permitted(view)) {
      const cost = expected(model, state, view, choice, (next) => solve(next).cost);
      if (cost < best.cost - 1e-12) best = { cost, choice };
    }
    known.set(key, best);
    return best;
  };
  const { cost, choice } = solve(atFirst(model));
  return { cost, first: choice, states: known.size };
}

/** Exact expected minutes of a policy. */
export function costOfPolicy(model: Reduced, policy: Policy): number {
  const known = new Map<string, number>();
  const follow = (state: State): number => {
    const key = keyOf(state);
    const seen = known.get(key);
    if (seen !== undefined) return seen;
    const view = viewOf(model, state);
    const cost = expected(model, state, view, policy(view), follow);
    known.set(key, cost);
    return cost;
  };
  return follow(atFirst(model));
}
