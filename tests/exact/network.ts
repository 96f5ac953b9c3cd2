/** Small networks of causes and effects, and what is believed after evidence, by enumeration of every joint state. */
import { normalised, updated } from '../../src/calc/belief.ts';

export interface Variable {
  name: string;
  states: readonly string[];
  parents: readonly string[];
  /** Probability of each state under each combination of the parents' states, the last parent turning fastest. */
  table: readonly (readonly number[])[];
}

export type States = Readonly<Record<string, string>>;

/** A variable that is yes with this probability, one for each combination of its parents (yes first). */
export function yesNo(name: string, parents: readonly string[], yes: readonly number[]): Variable {
  return { name, states: ['yes', 'no'], parents, table: yes.map((p) => [p, 1 - p]) };
}

/** Every combination of these variables' states. */
export function combinations(variables: readonly Variable[]): States[] {
  return variables.reduce<States[]>(
    (sofar, { name, states }) =>
      sofar.flatMap((one) => states.map((state): States => ({ ...one, [name]: state }))),
    [{}],
  );
}

function probabilityOf(variable: Variable, network: readonly Variable[], states: States): number {
  const row = variable.parents.reduce((index, parent) => {
    const { states: own } = network.find(({ name }) => name === parent)!;
    return index * own.length + own.indexOf(states[parent]!);
  }, 0);
  return variable.table[row]![variable.states.indexOf(states[variable.name]!)]!;
}

/** Probability of the wanted states after evidence taken in one piece after another. */
export function believed(network: readonly Variable[], wanted: States, evidence: States = {}): number {
  const joint = combinations(network);
  const prior = joint.map((states) =>
    network.reduce((product, variable) => product * probabilityOf(variable, network, states), 1),
  );
  const belief = Object.entries(evidence).reduce(
    (before, [name, state]) =>
      updated(
        before,
        joint.map((states) => (states[name] === state ? 1 : 0)),
      ),
    normalised(prior),
  );
  const fits = (states: States): boolean =>
    Object.entries(wanted).every(([name, state]) => states[name] === state);
  return joint.reduce((sum, states, index) => (fits(states) ? sum + belief[index]! : sum), 0);
}
