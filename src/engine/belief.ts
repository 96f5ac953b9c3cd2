/** What is believed of each suspect after all that was answered, read and tried. */
import { afterFailedRepair, updated } from '../calc/belief.ts';
import type { SuspectId } from '../knowledge/ids.ts';
import type { Case, CaseEvent, Gauges, Setting } from './case.ts';
import { bandOf } from './gauge.ts';
import type { CaseModel, Evidence } from './model.ts';
import { likelihoodOf, modelOf } from './model.ts';
import { withoutExplained } from './second-fault.ts';

/** What an event says of the suspects; undefined where it says nothing. */
export function evidenceOf(event: CaseEvent, setting: Setting): Evidence | undefined {
  if (event.kind === 'answer') return { check: event.check, outcome: event.outcome };
  if (event.kind === 'reading')
    return { check: event.check, outcome: bandOf(event.check, event.value, setting.baseline) };
  return undefined;
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

/** The events without the readings and answers that later ones replace, in their order. */
export function latestOf(events: readonly CaseEvent[]): CaseEvent[] {
  return events.filter(stillCounts);
}

/** The events of a case that bear on the belief, in their order. */
export function countingEvents({ events }: Case, model: CaseModel): CaseEvent[] {
  return latestOf(withoutExplained(events, model));
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
function gaugesNow(events: readonly CaseEvent[]): Gauges {
  return Object.fromEntries(
    events.flatMap((event) => (event.kind === 'reading' ? [[event.check, event.value] as const] : [])),
  );
}

/** Whether one of these readings was of a needle that shakes. */
function needleShakes(events: readonly CaseEvent[]): boolean {
  return events.some(
    (event) => event.kind === 'reading' && event.check !== 'wheel-turns' && event.unsteady === true,
  );
}

/** Probability of each suspect, in the model's order, after the events of the case. */
export function beliefOf(oneCase: Case, model: CaseModel = modelOf(oneCase.setting)): readonly number[] {
  const { setting } = oneCase;
  const events = countingEvents(oneCase, model);
  const belief = events.reduce<readonly number[]>(
    (sofar, event) => afterEvent(sofar, event, model, setting),
    model.prior,
  );
  const gauges = gaugesNow(events);
  return Object.keys(gauges).length === 0
    ? belief
    : updated(belief, model.ofReadings(gauges, needleShakes(events)));
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

/** The suspects of a case as it stands, the likeliest first: all of them, or at most `most`. */
export function suspectsOf(
  oneCase: Case,
  most = Infinity,
  belief: readonly number[] = beliefOf(oneCase),
): Suspicion[] {
  return topSuspects(belief, modelOf(oneCase.setting), most);
}
