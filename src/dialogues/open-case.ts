/** The case that is open in a conversation: what it is now, and what is added to it. */
import type { CaseEvent } from '../engine/case.ts';
import type { Context, Flow } from './conversation.ts';
import { currentPool } from './conversation.ts';
import type { FullCase, RecordChange } from './record.ts';
import { withChange } from './record.ts';

export type ConsultFlow = Extract<Flow, { at: 'consult' }>;

/** The case of a consult with its pool. Undefined where the record is gone, as after an erase. */
export function openCase(flow: ConsultFlow, context: Context): FullCase | undefined {
  const pool = currentPool(context);
  const record = pool?.cases.find(({ id }) => id === flow.case);
  return pool === undefined || record === undefined ? undefined : { pool, record };
}

/** The facts of a case after more changes than are stored yet. */
export function caseAfter(open: FullCase, changes: readonly RecordChange[], context: Context): FullCase {
  const facts = changes.reduce(withChange, context.facts);
  const pool = facts.pools.find(({ id }) => id === open.pool.id) ?? open.pool;
  return { pool, record: pool.cases.find(({ id }) => id === open.record.id) ?? open.record };
}

/** A change that adds an event to a case. */
export function eventChange(open: FullCase, event: CaseEvent): RecordChange {
  return { do: 'add-event', pool: open.pool.id, case: open.record.id, event };
}

/** The change that says that the pad's state is no longer certain. */
export function padUnknown(open: FullCase, context: Context): RecordChange {
  return eventChange(open, { kind: 'pad-unknown', at: context.facts.now });
}
