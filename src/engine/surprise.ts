/** Answers that hardly fit the rest of a case: one of them is asked again, once. */
import type { CheckId } from '../knowledge/ids.ts';
import { isQuantity } from '../knowledge/ids.ts';
import { checkById } from '../knowledge/trade.ts';
import { beliefOf, countingEvents } from './belief.ts';
import type { Case, CaseEvent } from './case.ts';
import type { CaseModel } from './model.ts';
import { likelihoodOf, modelOf, tellingOutcomes } from './model.ts';
import { putTwice } from './second-look.ts';

/** An answer is asked again where it is less likely than this beside the likeliest answer, given all the rest. */
const SURPRISING = 0.08;

export interface Surprise {
  check: CheckId;
  /** The answer that was given. */
  outcome: string;
  /** The answer that the rest of the case speaks for most. */
  expected: string;
  /** Probability of the answer given over that of the expected one, given all the rest; 0 to 1. */
  ratio: number;
}

/**
 * Probability of each outcome of a check given all but its own answer. The belief b has taken in the answer, so
 * without it each suspect has a weight of b / likelihood.
 */
function givenTheRest(
  belief: readonly number[],
  own: readonly number[],
  rows: readonly (readonly number[])[],
): number[] {
  const weights = belief.map((p, suspect) => p / (own[suspect] ?? 1));
  const total = weights.reduce((sum, weight) => sum + weight, 0);
  return rows.map((row) =>
    row.reduce((sum, likelihood, suspect) => sum + (likelihood * (weights[suspect] ?? 0)) / total, 0),
  );
}

function surpriseOf(event: CaseEvent, belief: readonly number[], model: CaseModel): Surprise | undefined {
  if (event.kind !== 'answer' || isQuantity(event.check)) return undefined;
  const own = likelihoodOf(event, model);
  if (own === undefined) return undefined;
  const check = checkById(event.check);
  const outcomes = tellingOutcomes(check);
  const probabilities = givenTheRest(belief, own, model.likelihood(check));
  const likeliest = probabilities.indexOf(Math.max(...probabilities));
  const ratio = (probabilities[outcomes.indexOf(event.outcome)] ?? 0) / (probabilities[likeliest] ?? 1);
  return { check: event.check, outcome: event.outcome, expected: outcomes[likeliest] ?? '', ratio };
}

/** How well each answer that counts fits the rest, the worst first. Readings are not judged here. */
export function surprises(
  oneCase: Case,
  model: CaseModel = modelOf(oneCase.setting),
  belief: readonly number[] = beliefOf(oneCase, model),
): Surprise[] {
  return countingEvents(oneCase, model)
    .flatMap((event) => surpriseOf(event, belief, model) ?? [])
    .sort((a, b) => a.ratio - b.ratio);
}

/**
 * The answer whose withdrawal explains most of what does not fit, where one hardly fits at all: it is worth asking
 * again, kindly. None is asked a third time. The later answer then counts instead of the earlier one.
 */
export function answerToAskAgain(
  oneCase: Case,
  model: CaseModel = modelOf(oneCase.setting),
  belief: readonly number[] = beliefOf(oneCase, model),
): Surprise | undefined {
  const twice = putTwice(oneCase.events);
  const [worst] = surprises(oneCase, model, belief).filter(({ check }) => !twice.has(check));
  return worst !== undefined && worst.ratio < SURPRISING ? worst : undefined;
}
