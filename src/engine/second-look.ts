/**
 * Looking again: before a case is handed on, an answer that may have been wrong is worth asking a second time, and so
 * is what the person was not sure of.
 */
import type { CheckId } from '../knowledge/ids.ts';
import { isQuantity } from '../knowledge/ids.ts';
import type { Check } from '../knowledge/schema.ts';
import { checkById } from '../knowledge/trade.ts';
import type { CaseEvent } from './case.ts';
import type { CaseModel } from './model.ts';
import { ANSWER_FLOOR, tellingOutcomes } from './model.ts';

/** Probability that whoever was not sure at first tells at the second look. Common practice, no source. */
const SURE_NOW = 0.7;

/** A check put before, with the probability of each answer to a second look under each suspect. */
export interface SecondLook {
  check: Check;
  likelihood: readonly (readonly number[])[];
  /** Probability that it is answered this time, 0 to 1. */
  answered: number;
}

/** Checks that were put twice, whatever the answers. */
export function putTwice(events: readonly CaseEvent[]): Set<CheckId> {
  const put = events.flatMap((event) =>
    event.kind === 'answer' || event.kind === 'retired' ? [event.check] : [],
  );
  return new Set(put.filter((check, index) => put.indexOf(check) !== index));
}

/**
 * Probability of a second answer after a first: what there is to see stays, the slip of the person is new. With t what
 * there is to see, P(second | first) = Σ P(t) A(first | t) A(second | t) / P(first), where A gives t itself but for the
 * share ε, which is spread evenly over all k outcomes; and P(first) = (1 − ε) P(t = first) + ε / k.
 */
function secondAnswer(first: number, second: number, same: boolean, outcomes: number): number {
  const slip = ANSWER_FLOOR / outcomes;
  const seenFirst = first - slip;
  const seenSecond = second - slip;
  const kept = same ? (1 - ANSWER_FLOOR) * seenFirst : 0;
  return (kept + slip * (seenFirst + seenSecond) + slip * slip) / first;
}

function secondLook(event: CaseEvent, model: CaseModel): SecondLook[] {
  if (event.kind === 'retired' && event.why === 'unsure') {
    const check = checkById(event.check);
    return [{ check, likelihood: model.likelihood(check), answered: SURE_NOW }];
  }
  if (event.kind !== 'answer' || isQuantity(event.check)) return [];
  const check = checkById(event.check);
  const outcomes = tellingOutcomes(check);
  const rows = model.likelihood(check);
  const given = outcomes.indexOf(event.outcome);
  const first = rows[given];
  if (first === undefined) return [];
  const likelihood = rows.map((row, outcome) =>
    row.map((second, suspect) =>
      secondAnswer(first[suspect] ?? 1, second, outcome === given, outcomes.length),
    ),
  );
  return [{ check, likelihood, answered: 1 }];
}

/** What may be asked a second time: not what the person chose to skip. Nothing is asked a third time. */
export function secondLooks(events: readonly CaseEvent[], model: CaseModel): SecondLook[] {
  const twice = putTwice(events);
  // A gauge that was read after all is no longer in doubt, however unsure the person was at first.
  const read = new Set(events.flatMap((event): CheckId[] => (event.kind === 'reading' ? [event.check] : [])));
  return events
    .flatMap((event) => secondLook(event, model))
    .filter(({ check }) => !twice.has(check.id) && !read.has(check.id));
}
