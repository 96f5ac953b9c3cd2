/** Each check's outcomes are distinct, and every distribution has one probability for each, summing to one. */
import type { FaultId } from '../ids.ts';
import type { Check } from '../schema.ts';
import type { Breach, Rule } from './breach.ts';

const ROUNDING = 1e-9;

function unsound(path: string, distribution: readonly number[], { outcomes }: Check): Breach[] {
  if (distribution.length !== outcomes.length) {
    const message = `has ${distribution.length} probabilities for ${outcomes.length} outcomes`;
    return [{ path, message, tip: 'Give one probability for each outcome, in their order.' }];
  }
  const sum = distribution.reduce((total, p) => total + p, 0);
  if (outcomes.length === 0 || Math.abs(sum - 1) < ROUNDING) return [];
  return [{ path, message: `sums to ${sum} and not to 1`, tip: 'Make the probabilities sum to one.' }];
}

function repeated<T>(values: readonly T[]): T[] {
  return [...new Set(values.filter((value, index) => values.indexOf(value) !== index))];
}

function repetitions(path: string, { outcomes, silent, given }: Check): Breach[] {
  const twice = repeated([...outcomes, ...silent]).map((outcome) => ({
    path: `${path}.outcomes`,
    message: `"${outcome}" stands there twice`,
    tip: 'An outcome is either telling or silent, once.',
  }));
  const rows = repeated<FaultId>(given.flatMap(({ faults }) => faults)).map((fault) => ({
    path: `${path}.given`,
    message: `"${fault}" stands in two rows; only the first would count`,
    tip: 'Take the fault out of the group, or out of its own row.',
  }));
  return [...twice, ...rows];
}

export const distributionsSound: Rule = ({ checks }) =>
  checks.flatMap((check) => {
    const path = `checks.${check.id}`;
    return [
      ...repetitions(path, check),
      ...unsound(`${path}.base`, check.base, check),
      ...check.given.flatMap((row, index) => unsound(`${path}.given.${index}`, row.outcomes, check)),
    ];
  });
