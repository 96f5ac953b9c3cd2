/** What is believed of each suspect after all that was answered, read and tried. */
import { afterFailedRepair, updated, withFloor } from '../calc/belief.ts';
import type { CheckId, SuspectId } from '../knowledge/ids.ts';
import { checkById } from '../knowledge/trade.ts';
import type { Case, CaseEvent, Gauges, Setting } from './case.ts';
import { BANDS, bandOf } from './gauge.ts';
import type { CaseModel } from './model.ts';
import { ANSWER_FLOOR, modelOf, tellingOutcomes } from './model.ts';
import { effectLikelihoods } from './readings.ts';

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

/**
 * A gauge read twice tells of the pool as it is now: the last reading of each quantity counts. So does the last answer
 * to a question that was put twice; where that was "not sure", the earlier one no longer counts either.
 */
function stillCounts(event: CaseEvent, index: number, events: readonly CaseEvent[]): boolean {
  const replaces = (later: CaseEvent): boolean => {
    if (event.kind === 'reading') return later.kind === 'reading' && later.check === event.check;
    if (event.kind !== 'answer') return false;
    return (later.kind === 'answer' || later.kind === 'retired') && later.check === event.check;
  };
  return !events.slice(index + 1).some(replaces);
}

/** Events that bear on the belief, in their order. */
export function countingEvents(events: readonly CaseEvent[]): CaseEvent[] {
  return events.filter(stillCounts);
}

/** Likelihood of readings taken together under each suspect, with the floor that every answer has. */
export function readingsLikelihood(
  gauges: Gauges,
  model: CaseModel,
  setting: Setting,
  shakes: boolean,
): number[] {
  const byEffect = effectLikelihoods(gauges, setting, shakes);
  return model.faults.map((fault) =>
    withFloor(byEffect[fault?.effect ?? 'none'], BANDS.length, ANSWER_FLOOR),
  );
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
  // Readings are weighed together, after all else: two gauges tell more than each by itself.
  const evidence = event.kind === 'answer' ? evidenceOf(event, setting) : undefined;
  const likelihood = evidence && likelihoodOf(evidence, model);
  return likelihood === undefined ? belief : updated(belief, likelihood);
}

/** The last reading of each gauge. */
export function gaugesNow(events: readonly CaseEvent[]): Gauges {
  return Object.fromEntries(
    events.flatMap((event) => (event.kind === 'reading' ? [[event.check, event.value] as const] : [])),
  );
}

/** Whether the last reading of some gauge was of a needle that shakes. */
function needleShakes(events: readonly CaseEvent[]): boolean {
  return countingEvents(events).some((event) => event.kind === 'reading' && event.check !== 'wheel-turns' && event.unsteady === true);
}

/** Probability of each suspect, in the model's order, after the events of the case. */
export function beliefOf(oneCase: Case, model: CaseModel = modelOf(oneCase.setting)): readonly number[] {
  const { events, setting } = oneCase;
  const belief = countingEvents(events).reduce<readonly number[]>(
    (sofar, event) => afterEvent(sofar, event, model, setting),
    model.prior,
  );
  const gauges = gaugesNow(events);
  return Object.keys(gauges).length === 0
    ? belief
    : updated(belief, readingsLikelihood(gauges, model, setting, needleShakes(events)));
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
