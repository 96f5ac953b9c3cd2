/**
 * Two faults at once: a fault that was found and put right, and still the trouble stays. What it explained speaks for
 * nothing any more, as it was bound to be seen whatever the other fault is; and it may be looked at again, as the pool
 * has changed since.
 */
import type { FaultId } from '../knowledge/ids.ts';
import { SOMETHING_ELSE } from '../knowledge/ids.ts';
import { faultById } from '../knowledge/trade.ts';
import type { CaseEvent } from './case.ts';
import type { CaseModel } from './model.ts';
import { likelihoodOf } from './model.ts';
import { REVEALED_BY } from './revealing.ts';

/** An answer shows a fault that makes it this many times likelier than any other suspect does. */
const SHOWS = 4;
/** A fault explains an answer that it makes this many times likelier than nothing known would. */
const EXPLAINS = 1.5;

type Answer = Extract<CaseEvent, { kind: 'answer' }>;

/** Whether an answer shows this fault and no other: far likelier under it than under any other suspect. */
function shows(fault: FaultId, event: CaseEvent, model: CaseModel): boolean {
  if (event.kind !== 'answer' || REVEALED_BY.get(fault)?.includes(event.check) !== true) return false;
  const row = likelihoodOf(event, model) ?? [];
  const own = model.suspects.indexOf(fault);
  return row.every((other, suspect) => suspect === own || (row[own] ?? 0) >= SHOWS * other);
}

function isExplainedBy(fault: FaultId, answer: Answer, model: CaseModel): boolean {
  const row = likelihoodOf(answer, model);
  const under = row?.[model.suspects.indexOf(fault)] ?? 0;
  const otherwise = row?.[model.suspects.indexOf(SOMETHING_ELSE)] ?? 1;
  return under >= EXPLAINS * otherwise;
}

/** Whether an event still tells of the pool once a fault that was found is put right. */
function stillTells(event: CaseEvent, fault: FaultId, model: CaseModel): boolean {
  if (event.kind === 'reading') return faultById(fault).effect === 'none';
  return event.kind !== 'answer' || !isExplainedBy(fault, event, model);
}

/** The events without the answers that faults found and put right since explain, and the readings they moved. */
export function withoutExplained(events: readonly CaseEvent[], model: CaseModel): CaseEvent[] {
  let standing: CaseEvent[] = [];
  for (const event of events) {
    if (
      event.kind === 'repair' &&
      event.result === 'not-yet' &&
      standing.some((before) => shows(event.fault, before, model))
    )
      standing = standing.filter((before) => stillTells(before, event.fault, model));
    standing.push(event);
  }
  return standing;
}
