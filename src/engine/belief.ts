/** What is believed of each suspect after all that was answered, read and tried. */
import { afterFailedRepair, updated } from '../calc/belief.ts';
import type { CheckId, Quantity, SuspectId } from '../knowledge/ids.ts';
import { checkById } from '../knowledge/trade.ts';
import type { Case, CaseEvent, Setting } from './case.ts';
import { bandOf } from './gauge.ts';
import type { CaseModel } from './model.ts';
import { modelOf, tellingOutcomes } from './model.ts';

/** A piece of evidence: an outcome of a check, or the band of a reading. */
export interface Evidence {
  check: CheckId;
  outcome: string;
}

/** What an event says of the suspects; undefined where it says nothing. */
export function evidenceOf(event: CaseEvent, setting: Setting): Evidence | undefined {
  if (event.kind === 'answer') return { check: event.check, outcome: event.outcome };
  if (event.kind === 'reading')
    return { check: event.check, outcome: bandOf(event.check, event.value, setting.baseline) };
  return undefined;
}

/** Likelihood of a piece of evidence under each suspect, or undefined where it tells nothing. */
export function likelihoodOf(evidence: Evidence, model: CaseModel): readonly number[] | undefined {
  const check = checkById(evidence.check);
  const outcome = tellingOutcomes(check).indexOf(evidence.outcome);
  if (outcome === -1) return undefined;
  return model.likelihood(check)[outcome];
}

/** A gauge read twice tells of the pool as it is now: the last reading of each quantity counts. */
function stillCounts(event: CaseEvent, index: number, events: readonly CaseEvent[]): boolean {
  const quantity: Quantity | undefined = event.kind === 'reading' ? event.check : undefined;
  if (quantity === undefined) return true;
  return !events.slice(index + 1).some((later) => later.kind === 'reading' && later.check === quantity);
}

/** Events that bear on the belief, in their order. */
export function countingEvents(events: readonly CaseEvent[]): CaseEvent[] {
  return events.filter(stillCounts);
}

function afterEvent(
  belief: readonly number[],
  event: CaseEvent,
  model: CaseModel,
  setting: Setting,
): readonly number[] {
  if (event.kind === 'repair') {
    const cause = model.suspects.indexOf(event.fault);
    const cures = model.faults[cause]?.repair.cures;
    return event.result === 'not-yet' && cures !== undefined
      ? afterFailedRepair(belief, cause, cures)
      : belief;
  }
  const evidence = evidenceOf(event, setting);
  const likelihood = evidence && likelihoodOf(evidence, model);
  return likelihood === undefined ? belief : updated(belief, likelihood);
}

/** Probability of each suspect, in the model's order, after the events of the case. */
export function beliefOf(oneCase: Case, model: CaseModel = modelOf(oneCase.setting)): readonly number[] {
  return countingEvents(oneCase.events).reduce<readonly number[]>(
    (belief, event) => afterEvent(belief, event, model, oneCase.setting),
    model.prior,
  );
}

export interface Suspicion {
  fault: SuspectId;
  /** Probability, 0 to 1. */
  p: number;
}

/** The likeliest suspects first, at most `most` of them. */
export function topSuspects(belief: readonly number[], model: CaseModel, most: number): Suspicion[] {
  return model.suspects
    .map((fault, index) => ({ fault, p: belief[index] ?? 0 }))
    .sort((a, b) => b.p - a.p)
    .slice(0, most);
}

/** The likeliest suspects of a case as it stands, at most `most` of them. */
export function suspectsOf(oneCase: Case, most: number): Suspicion[] {
  const model = modelOf(oneCase.setting);
  return topSuspects(beliefOf(oneCase, model), model, most);
}
