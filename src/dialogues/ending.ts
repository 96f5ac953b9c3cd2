/** The end of a case: its result, the brief where somebody has to come, and what is offered next. */
import { MINUTE_MS } from '../calc/units.ts';
import type { Suspicion } from '../engine/belief.ts';
import { suspectsOf } from '../engine/belief.ts';
import type { CaseEvent } from '../engine/case.ts';
import { isAnswer } from '../engine/case.ts';
import { padAfter } from '../engine/pad.ts';
import type { FaultId } from '../knowledge/ids.ts';
import { SOMETHING_ELSE } from '../knowledge/ids.ts';
import { briefOf } from './brief.ts';
import { caseOf } from './case-view.ts';
import { backAgain } from './company/repeat.ts';
import { visitOffer } from './company/visits/wanted.ts';
import { contact } from './company/words.ts';
import type { Context, Flow, Move } from './conversation.ts';
import { caseAfter } from './open-case.ts';
import type { FullCase, PoolRecord, RecordChange } from './record.ts';
import type { CaseOutcome, Say } from './say.ts';
import { info, text } from './say.ts';
import { faultName } from './words.ts';

/** How many suspects are shown with a step or a result. */
export const SUSPECTS_SHOWN = 5;

/** The likeliest known fault. */
function diagnosis(belief: readonly Suspicion[]): FaultId | undefined {
  return belief.map(({ fault }) => fault).find((fault) => fault !== SOMETHING_ELSE);
}

function resultSay(
  { record }: FullCase,
  outcome: CaseOutcome,
  fault: FaultId | undefined,
  belief: readonly Suspicion[],
  now: number,
): Say {
  const steps = record.events.filter(isAnswer).length;
  const minutes = Math.max(1, Math.round((now - record.openedAt) / MINUTE_MS));
  const name = faultName(fault ?? SOMETHING_ELSE);
  // A technician needs no word that a technician is needed.
  const key = outcome === 'visit' && record.role === 'technician' ? 'visit-again' : outcome;
  const words = text(`dialogue:result.${key}`, { fault: name, steps, minutes });
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
  const now = caseAfter(open, changes, context);
  const belief = suspectsOf(caseOf(now.pool, now.record), SUSPECTS_SHOWN);
  const fault = cured ?? (outcome === 'visit' ? diagnosis(belief) : undefined);
  const close: RecordChange = {
    do: 'close-case',
    pool: open.pool.id,
    case: open.record.id,
    outcome,
    ...(fault === undefined ? {} : { fault }),
  };
  const learns = confirmation(now.pool, outcome, cured);
  const says = [resultSay(now, outcome, fault, belief, context.facts.now)];
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
