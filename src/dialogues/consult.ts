/** Leading a person through a case: caution, check, repair, until it runs or somebody has to come. */
import { beliefOf, suspectsOf } from '../engine/belief.ts';
import type { CaseEvent, RepairResult } from '../engine/case.ts';
import { isAnswer, REPAIR_RESULTS } from '../engine/case.ts';
import { cautionOrStep, plannedStep } from '../engine/next.ts';
import type { NextStep } from '../engine/next.ts';
import { padAfter } from '../engine/pad.ts';
import { modelOf } from '../engine/model.ts';
import type { CheckId, FaultId } from '../knowledge/ids.ts';
import { SOMETHING_ELSE } from '../knowledge/ids.ts';
import { checkById } from '../knowledge/trade.ts';
import { briefOf } from './brief.ts';
import { caseOf } from './case-view.ts';
import { backAgain } from './company/repeat.ts';
import { visitOffer } from './company/visits/wanted.ts';
import { contact } from './company/words.ts';
import type { ConsultPrompt, Context, Flow, Move } from './conversation.ts';
import { currentPool } from './conversation.ts';
import type { Finding, SpokenReading, Understood } from './event.ts';
import { findingSays, fittingFindings, urgentWord } from './findings.ts';
import { flowSays, keptReading, slipsOf, sorted } from './gauges.ts';
import { justRead } from './just-read.ts';
import { askPrompt } from './prompts.ts';
import type { FullCase, PoolRecord, Reading, RecordChange } from './record.ts';
import { withChange } from './record.ts';
import type { CaseOutcome, Say } from './say.ts';
import { info, text } from './say.ts';
import { verdictOn } from './verdict.ts';
import { faultName, UNSURE } from './words.ts';

const SUSPECTS_SHOWN = 5;

type ConsultFlow = Extract<Flow, { at: 'consult' }>;

/** The case of a consult with its pool. Undefined where the record is gone, as after an erase. */
export function openCase(flow: ConsultFlow, context: Context): FullCase | undefined {
  const pool = currentPool(context);
  const record = pool?.cases.find(({ id }) => id === flow.case);
  return pool === undefined || record === undefined ? undefined : { pool, record };
}

/** The facts of a case after more changes than are stored yet. */
function after(open: FullCase, changes: readonly RecordChange[], context: Context): FullCase {
  const facts = changes.reduce(withChange, context.facts);
  const pool = facts.pools.find(({ id }) => id === open.pool.id) ?? open.pool;
  return { pool, record: pool.cases.find(({ id }) => id === open.record.id) ?? open.record };
}

/** The likeliest known fault. */
function diagnosis(open: FullCase): FaultId | undefined {
  return suspectsOf(caseOf(open.pool, open.record), SUSPECTS_SHOWN)
    .map(({ fault }) => fault)
    .find((fault) => fault !== SOMETHING_ELSE);
}

function resultSay(open: FullCase, outcome: CaseOutcome, fault: FaultId | undefined, now: number): Say {
  const steps = open.record.events.filter(isAnswer).length;
  const minutes = Math.max(1, Math.round((now - open.record.openedAt) / 60_000));
  const belief = suspectsOf(caseOf(open.pool, open.record), SUSPECTS_SHOWN);
  const name = faultName(fault ?? SOMETHING_ELSE);
  const words = text(`dialogue:result.${outcome}`, { fault: name, steps, minutes });
  const owner = outcome === 'visit' && fault !== undefined ? [text(`faults:${fault}.owner`)] : [];
  const say: Say = { kind: 'result', id: outcome, text: [words, ...owner], outcome, belief, minutes };
  return fault === undefined ? say : { ...say, fault };
}

/** Whether the pump may be off for all that was said, also where later words left the pad's state open. */
function isPumpPerhapsOff(events: readonly CaseEvent[]): boolean {
  return padAfter(events.filter(({ kind }) => kind !== 'pad-unknown')).pump === 'off';
}

/** A repair that worked tells a company as much about its pools as a visit does. */
function confirmation(pool: PoolRecord, outcome: CaseOutcome, cured: FaultId | undefined): RecordChange[] {
  const { company, equipment } = pool;
  if (company === undefined || outcome !== 'fixed' || cured === undefined) return [];
  return [{ do: 'confirm-cause', company: company.id, fault: cured, equipment }];
}

/** Ends a case: the record is closed and the result said, with the brief where somebody has to come. */
export function ended(
  open: FullCase,
  changes: readonly RecordChange[],
  outcome: CaseOutcome,
  context: Context,
  cured?: FaultId,
): Move {
  const now = after(open, changes, context);
  const fault = cured ?? (outcome === 'visit' ? diagnosis(now) : undefined);
  const close: RecordChange = {
    do: 'close-case',
    pool: open.pool.id,
    case: open.record.id,
    outcome,
    ...(fault === undefined ? {} : { fault }),
  };
  const learns = confirmation(now.pool, outcome, cured);
  const says = [resultSay(now, outcome, fault, context.facts.now)];
  const again = outcome === 'fixed' ? backAgain('owner', now.pool, fault, context.facts.now) : [];
  if (again.length > 0) says.push(info('back-again', ...again));
  // Whoever switches the pump on again after the talk has ended has to know how.
  if (isPumpPerhapsOff(now.record.events))
    says.push(info('restart-swimmers', text('cautions:restart-swimmers.text')));
  const { company } = now.pool;
  if (outcome === 'visit' && company !== undefined)
    says.push(info('company', text('company:hand-off'), contact(company)));
  if (outcome === 'visit') says.push(briefOf(now.pool, now.record));
  const offersBaseline = outcome === 'fixed' && now.pool.equipment.cleaner !== 'robotic';
  const flow: Flow = offersBaseline ? { at: 'baseline-offer' } : { at: 'complaint' };
  const offer = outcome === 'visit' ? visitOffer(now.pool, open.record.id, flow, context) : undefined;
  if (offer !== undefined)
    return { ...offer, changes: [...changes, close], says: [...says, ...(offer.says ?? [])] };
  if (!offersBaseline) says.push(info('afterwards', text('dialogue:afterwards')));
  return { flow, changes: [...changes, close, ...learns], says, quiet: !offersBaseline };
}

/** Goes on with a case after these changes: to the next caution or step, or to the hand-off. */
export function goOn(
  open: FullCase,
  changes: readonly RecordChange[],
  context: Context,
  says: readonly Say[] = [],
): Move {
  const now = after(open, changes, context);
  const oneCase = caseOf(now.pool, now.record);
  const step = plannedStep(oneCase);
  if (step === undefined) {
    const end = ended(open, changes, 'visit', context);
    return { ...end, says: [...says, ...(end.says ?? [])] };
  }
  return { flow: { at: 'consult', case: open.record.id, prompt: promptFor(step, now) }, changes, says };
}

/** Begins a case with what was read just before it. */
export function begin(open: FullCase, changes: readonly RecordChange[], context: Context): Move {
  const { pool, record } = after(open, changes, context);
  const fitting = modelOf(caseOf(pool, record).setting).checks.map(({ id }) => id);
  const told = justRead(pool, context.facts.now)
    .filter(({ quantity }) => fitting.includes(quantity))
    .map(({ quantity: check, value, said, at }) =>
      eventChange(open, { kind: 'reading', check, value, said, at }),
    );
  return goOn(open, [...changes, ...told], context);
}

function promptFor(step: NextStep, open: FullCase): ConsultPrompt {
  const next = cautionOrStep(step, caseOf(open.pool, open.record));
  return next.kind === 'caution' ? { ...next, before: step } : next;
}

function eventChange(open: FullCase, event: CaseEvent): RecordChange {
  return { do: 'add-event', pool: open.pool.id, case: open.record.id, event };
}

function answeredCheck(check: CheckId, outcome: string, open: FullCase, context: Context): Move | undefined {
  const { outcomes, silent, quantity } = checkById(check);
  if (![...outcomes, ...silent].includes(outcome)) return undefined;
  const changes: RecordChange[] = [
    eventChange(open, { kind: 'answer', check, outcome, at: context.facts.now }),
  ];
  if (quantity !== undefined) changes.push({ do: 'note-missing', pool: open.pool.id, instrument: check });
  return goOn(open, changes, context, urgentWord(check, outcome));
}

function answeredRepair(fault: FaultId, result: RepairResult, open: FullCase, context: Context): Move {
  const changes = [eventChange(open, { kind: 'repair', fault, result, at: context.facts.now })];
  return result === 'worked' ? ended(open, changes, 'fixed', context, fault) : goOn(open, changes, context);
}

function acknowledged(
  prompt: Extract<ConsultPrompt, { kind: 'caution' }>,
  open: FullCase,
  context: Context,
): Move {
  const { caution, brings, before } = prompt;
  const changes = [eventChange(open, { kind: 'understood', caution, brings, at: context.facts.now })];
  const now = after(open, changes, context);
  return { flow: { at: 'consult', case: open.record.id, prompt: promptFor(before, now) }, changes };
}

/** Leaves a step out: its check is retired, or its repair noted as one the person cannot do. */
function leftOut(step: NextStep, why: 'unsure' | 'skip', open: FullCase, context: Context): Move {
  const at = context.facts.now;
  const event: CaseEvent =
    step.kind === 'check'
      ? { kind: 'retired', check: step.check, why, at }
      : { kind: 'repair', fault: step.fault, result: 'cannot', at };
  return goOn(open, [eventChange(open, event)], context);
}

function verdictSays(kept: readonly Reading[], open: FullCase): Say[] {
  if (kept.length === 0) return [];
  const gauges = Object.fromEntries(kept.map(({ quantity, value }) => [quantity, value]));
  return [info('verdict', ...verdictOn(gauges, open.pool, caseOf(open.pool, open.record)))];
}

/**
 * Findings as events. What was found without being asked for was found in some state of the pad that nobody told, so
 * nothing acknowledged before is relied on.
 */
function findingChanges(
  findings: readonly Finding[],
  prompt: ConsultPrompt,
  open: FullCase,
  context: Context,
): RecordChange[] {
  const at = context.facts.now;
  const noted = findings.map(({ check, outcome }) =>
    eventChange(open, { kind: 'answer', check, outcome, at }),
  );
  const isAsked = ({ check }: Finding): boolean => prompt.kind === 'check' && prompt.check === check;
  return findings.every(isAsked) ? noted : [...noted, padUnknown(open, context)];
}

/** Takes every reading and finding of a message, asked for or not; an impossible reading is asked about first. */
function tookAll(
  spoken: readonly SpokenReading[],
  findings: readonly Finding[],
  flow: ConsultFlow,
  open: FullCase,
  context: Context,
): Move {
  const { good, doubtful } = sorted(spoken);
  const at = context.facts.now;
  const oneCase = caseOf(open.pool, open.record);
  const fitting = modelOf(oneCase.setting).checks.map(({ id }) => id);
  const kept = good.map((reading) => keptReading(reading, false, at));
  const found = fittingFindings(findings, oneCase);
  const changes = kept.flatMap((reading, index): RecordChange[] => {
    const { quantity: check, value, said } = reading;
    const shaken = good[index]?.unsteady === true ? { unsteady: true } : {};
    const noted: RecordChange = { do: 'note-reading', pool: open.pool.id, reading };
    return fitting.includes(check)
      ? [noted, eventChange(open, { kind: 'reading', check, value, said, at, ...shaken })]
      : [noted];
  });
  changes.push(...findingChanges(found, flow.prompt, open, context));
  const says = [
    ...findingSays(found),
    ...verdictSays(kept, after(open, changes, context)),
    ...flowSays(spoken, open.pool),
  ];
  if (doubtful !== undefined) {
    const { quantity, unit } = doubtful;
    return { flow: { at: 'doubt', quantity, unit, slips: slipsOf(doubtful), then: flow }, changes, says };
  }
  if (changes.length === 0) return { flow, says };
  return goOn(open, changes, context, says);
}

function stepOf(prompt: ConsultPrompt): NextStep {
  return prompt.kind === 'caution' ? prompt.before : prompt;
}

function chosen(option: string, prompt: ConsultPrompt, open: FullCase, context: Context): Move | undefined {
  if (option === 'skip' || option === 'unsure') return leftOut(stepOf(prompt), option, open, context);
  if (prompt.kind === 'caution')
    return option === 'understood' ? acknowledged(prompt, open, context) : undefined;
  if (prompt.kind === 'check') return answeredCheck(prompt.check, option, open, context);
  const result = REPAIR_RESULTS.find((known) => known === option);
  return result && answeredRepair(prompt.fault, result, open, context);
}

/**
 * Takes back the last answer. What was done at the pad since is not undone by that, so nothing acknowledged before
 * is relied on. Undefined where there is no answer.
 */
export function takeBack(open: FullCase, context: Context): Move | undefined {
  const keep = open.record.events.findLastIndex(isAnswer);
  if (keep === -1) return undefined;
  const withdraw: RecordChange = { do: 'withdraw-events', pool: open.pool.id, case: open.record.id, keep };
  const changes = [withdraw, padUnknown(open, context)];
  return goOn(open, changes, context, [info('taken-back', text('dialogue:taken-back'))]);
}

function padUnknown(open: FullCase, context: Context): RecordChange {
  return eventChange(open, { kind: 'pad-unknown', at: context.facts.now });
}

/** Goes on with a case after a long pause: every caution is due again. */
export function resumed(open: FullCase, context: Context): Move {
  return goOn(open, [padUnknown(open, context)], context);
}

/** The present prompt of a consult. */
export function askConsult(flow: ConsultFlow, context: Context): Say[] {
  const open = openCase(flow, context);
  if (open === undefined) return [info('case-gone', text('dialogue:case-gone'))];
  const oneCase = caseOf(open.pool, open.record);
  const belief = beliefOf(oneCase);
  return [
    { ...askPrompt(flow.prompt, oneCase, belief), belief: suspectsOf(oneCase, SUSPECTS_SHOWN, belief) },
  ];
}

/** Answers a message within a consult; undefined where it does not fit what is asked. */
export function answerConsult(flow: ConsultFlow, event: Understood, context: Context): Move | undefined {
  const open = openCase(flow, context);
  if (open === undefined) return { flow: { at: 'complaint' } };
  if (event.kind === 'readings') return tookAll(event.readings, [], flow, open, context);
  if (event.kind === 'findings') return tookAll(event.readings, event.findings, flow, open, context);
  if (event.kind === 'answer') return chosen(event.option, flow.prompt, open, context);
  if (event.kind === 'command' && (event.id === 'skip' || event.id === UNSURE.id))
    return chosen(event.id, flow.prompt, open, context);
  return undefined;
}
