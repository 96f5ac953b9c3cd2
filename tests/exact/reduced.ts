/** Small models of troubleshooting that can be solved exactly, and the states that a case passes through. */
import type { HandOff } from '../../src/calc/repair-table.ts';
import { setUpTable, tabled } from '../../src/calc/repair-table.ts';
import type { OpenCheck, OpenRepair, Outlook, StepChoice } from '../../src/calc/outlook.ts';
import { madeAfter, minutesOf } from '../../src/calc/outlook.ts';

export interface Reduced {
  prior: readonly number[];
  checks: readonly OpenCheck[];
  repairs: readonly OpenRepair[];
  /** Checks that reveal the cause of each repair. */
  looks: readonly (readonly number[])[];
  setUps: readonly number[];
  handOff: HandOff;
}

export interface State {
  /** Outcome of each check, −1 where it was not asked. */
  outcomes: readonly number[];
  /** Whether each repair was tried. */
  tried: readonly boolean[];
  made: number;
}

export function atFirst({ checks, repairs }: Reduced): State {
  return { outcomes: checks.map(() => -1), tried: repairs.map(() => false), made: 0 };
}

export function keyOf({ outcomes, tried, made }: State): string {
  return `${outcomes.join()}|${tried.map(Number).join('')}|${made}`;
}

/** Belief of a state, from the model alone. */
export function beliefAt(model: Reduced, { outcomes, tried }: State): number[] {
  const weights = model.prior.map((p, cause) => {
    const answers = outcomes.map((outcome, check) =>
      outcome === -1 ? 1 : model.checks[check]!.likelihood[outcome]![cause]!,
    );
    const failures = model.repairs.map((repair, index) =>
      tried[index] === true && repair.cause === cause ? 1 - repair.cures : 1,
    );
    return [...answers, ...failures].reduce((product, factor) => product * factor, p);
  });
  const sum = weights.reduce((total, weight) => total + weight, 0);
  return weights.map((weight) => weight / sum);
}

/** What the planner is given in a state, with the model's own index of every open step. */
export interface View {
  outlook: Outlook;
  checks: readonly number[];
  repairs: readonly number[];
}

/** The open repairs, each with the quickest open look at its cause. */
function openRepairs(model: Reduced, repairs: readonly number[], checks: readonly number[]): OpenRepair[] {
  return repairs.map((index) => {
    const looks = model.looks[index]!.filter((check) => checks.includes(check)).map(
      (check) => model.checks[check]!,
    );
    const quickest = looks.sort((a, b) => a.minutes - b.minutes)[0];
    return {
      ...model.repairs[index]!,
      lookMinutes: quickest?.minutes ?? Infinity,
      lookNeeds: quickest?.needs ?? 0,
      lookClass: quickest?.class ?? 0,
    };
  });
}

export function viewOf(model: Reduced, state: State): View {
  const checks = state.outcomes.flatMap((outcome, index) => (outcome === -1 ? [index] : []));
  const repairs = state.tried.flatMap((tried, index) => (tried ? [] : [index]));
  const open = openRepairs(model, repairs, checks);
  const outlook: Outlook = {
    belief: beliefAt(model, state),
    checks: checks.map((index) => model.checks[index]!),
    repairs: open,
    table: tabled(open),
    made: state.made,
    setUpMinutes: setUpTable(model.setUps),
    handOff: model.handOff,
  };
  return { outlook, checks, repairs };
}

export interface Branch {
  probability: number;
  state: State;
}

/** What a step takes in a state, and where it may lead; a repair that cures ends the case. */
export function outcomesOf(
  model: Reduced,
  state: State,
  view: View,
  choice: StepChoice,
): { minutes: number; branches: Branch[] } {
  const { belief } = view.outlook;
  const step =
    choice.kind === 'check' ? view.outlook.checks[choice.index]! : view.outlook.repairs[choice.index]!;
  const minutes = minutesOf(step, state.made, view.outlook.setUpMinutes);
  const made = madeAfter(step, state.made);
  if (choice.kind === 'repair') {
    const own = view.repairs[choice.index]!;
    const { cause, cures } = model.repairs[own]!;
    const tried = state.tried.map((was, index) => was || index === own);
    return {
      minutes,
      branches: [{ probability: 1 - belief[cause]! * cures, state: { ...state, tried, made } }],
    };
  }
  const own = view.checks[choice.index]!;
  const branches = model.checks[own]!.likelihood.map((row, outcome) => ({
    probability: row.reduce((sum, likelihood, cause) => sum + belief[cause]! * likelihood, 0),
    state: { ...state, made, outcomes: state.outcomes.map((was, index) => (index === own ? outcome : was)) },
  }));
  return { minutes, branches };
}
