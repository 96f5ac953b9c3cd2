/** Leading a person through a case: caution, check, repair, until it runs or somebody has to come. */
import { beliefOf, suspectsOf } from '../engine/belief.ts';
import type { CaseEvent, RepairResult } from '../engine/case.ts';
import { isAnswer, REPAIR_RESULTS } from '../engine/case.ts';
import { cautionOrStep, plannedStep } from '../engine/next.ts';
import type { NextStep } from '../engine/next.ts';
import type { CheckId, FaultId } from '../knowledge/ids.ts';
import { checkById } from '../knowledge/trade.ts';
import { caseOf } from './case-view.ts';
import type { ConsultPrompt, Context, Move } from './conversation.ts';
import { ended, SUSPECTS_SHOWN } from './ending.ts';
import type { Finding, ToldTogether, Understood } from './event.ts';
import {
  findingChanges,
  findingSays,
  fittingChecks,
  fittingFindings,
  mustStayOff,
  saidByComplaint,
  urgentWord,
} from './findings.ts';
import { flowSays, keptReading, slipsOf, sorted } from './gauges.ts';
import { justRead } from './just-read.ts';
import type { ConsultFlow } from './open-case.ts';
import { caseAfter, eventChange, openCase, padUnknown } from './open-case.ts';
import { askPrompt } from './prompts.ts';
import type { FullCase, Reading, RecordChange } from './record.ts';
import type { Say } from './say.ts';
import { info, text } from './say.ts';
import { verdictOn } from './verdict.ts';
import { UNSURE } from './words.ts';

/** The move, with something said before all else. */
function saying(says: readonly Say[], move: Move): Move {
  return { ...move, says: [...says, ...(move.says ?? [])] };
}

/** Goes on with a case after these changes: to the next caution or step, or to the hand-off. */
export function goOn(
  open: FullCase,
  changes: readonly RecordChange[],
  context: Context,
  says: readonly Say[] = [],
): Move {
  const now = caseAfter(open, changes, context);
  const oneCase = caseOf(now.pool, now.record);
  const step = mustStayOff(oneCase) ? undefined : plannedStep(oneCase);
  if (step === undefined) return saying(says, ended(open, changes, 'visit', context));
  return { flow: { at: 'consult', case: open.record.id, prompt: promptFor(step, now) }, changes, says };
}

/** Begins a case with what was read just before it, and with what was told with its complaint. */
export function begin(
  open: FullCase,
  changes: readonly RecordChange[],
  findings: readonly Finding[],
  context: Context,
): Move {
  const { pool, record } = caseAfter(open, changes, context);
  const oneCase = caseOf(pool, record);
  const fitting = fittingChecks(oneCase);
  const found = fittingFindings([...saidByComplaint(record.complaint), ...findings], oneCase);
  const told = justRead(open.pool, context.facts.now)
    .filter(({ quantity }) => fitting.includes(quantity))
    .map((reading) => readingChange(open, reading));
  const seen = findingChanges(found, undefined, open, context);
  return goOn(open, [...changes, ...told, ...seen], context, findingSays(found));
}

function promptFor(step: NextStep, open: FullCase): ConsultPrompt {
  const next = cautionOrStep(step, caseOf(open.pool, open.record));
  return next.kind === 'caution' ? { ...next, before: step } : next;
}

/** A reading as an answer of the case. */
function readingChange(open: FullCase, reading: Reading, isUnsteady = false): RecordChange {
  const { quantity: check, value, said, at } = reading;
  const shaken = isUnsteady ? { unsteady: true } : {};
  return eventChange(open, { kind: 'reading', check, value, said, at, ...shaken });
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

/** How a repair went, with what else was told in the same breath. */
function answeredRepair(
  fault: FaultId,
  result: RepairResult,
  open: FullCase,
  context: Context,
  told: { changes: readonly RecordChange[]; says: readonly Say[] } = { changes: [], says: [] },
): Move {
  const repaired = eventChange(open, { kind: 'repair', fault, result, at: context.facts.now });
  const changes = [repaired, ...told.changes];
  return result === 'worked'
    ? saying(told.says, ended(open, changes, 'fixed', context, fault))
    : goOn(open, changes, context, told.says);
}

function acknowledged(
  prompt: Extract<ConsultPrompt, { kind: 'caution' }>,
  open: FullCase,
  context: Context,
): Move {
  const { caution, brings, before } = prompt;
  const changes = [eventChange(open, { kind: 'understood', caution, brings, at: context.facts.now })];
  const now = caseAfter(open, changes, context);
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
 * Takes every reading and finding of a message, asked for or not, and how the repair on the screen went; an impossible
 * reading is asked about first.
 */
function tookAll(
  { readings: spoken, findings, result: told }: Omit<ToldTogether, 'kind'>,
  flow: ConsultFlow,
  open: FullCase,
  context: Context,
): Move {
  const { prompt } = flow;
  const { good, doubtful } = sorted(spoken);
  const result = doubtful === undefined ? REPAIR_RESULTS.find((known) => known === told) : undefined;
  // What is seen of a cured pool is no answer to what was wrong with it.
  const isCured = result === 'worked';
  const oneCase = caseOf(open.pool, open.record);
  const fitting = isCured ? [] : fittingChecks(oneCase);
  const kept = good.map((reading) => keptReading(reading, false, context.facts.now));
  const found = isCured ? [] : fittingFindings(findings, oneCase);
  const changes = kept.flatMap((reading, index): RecordChange[] => {
    const noted: RecordChange = { do: 'note-reading', pool: open.pool.id, reading };
    return fitting.includes(reading.quantity)
      ? [noted, readingChange(open, reading, good[index]?.unsteady)]
      : [noted];
  });
  const asked = prompt.kind === 'check' ? prompt.check : undefined;
  changes.push(...findingChanges(found, asked, open, context));
  const says = [
    ...findingSays(found),
    ...verdictSays(kept, caseAfter(open, changes, context)),
    ...flowSays(spoken, open.pool),
  ];
  if (doubtful !== undefined) {
    const { quantity, unit } = doubtful;
    return { flow: { at: 'doubt', quantity, unit, slips: slipsOf(doubtful), then: flow }, changes, says };
  }
  if (result !== undefined && prompt.kind === 'repair')
    return answeredRepair(prompt.fault, result, open, context, { changes, says });
  return changes.length === 0 ? { flow, says } : goOn(open, changes, context, says);
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
  if (event.kind === 'readings') return tookAll({ ...event, findings: [] }, flow, open, context);
  if (event.kind === 'findings') return tookAll(event, flow, open, context);
  if (event.kind === 'answer') return chosen(event.option, flow.prompt, open, context);
  if (event.kind === 'command' && (event.id === 'skip' || event.id === UNSURE.id))
    return chosen(event.id, flow.prompt, open, context);
  return undefined;
}
