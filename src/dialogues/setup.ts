/** The few equipment questions between a complaint and the first step. */
import type { EquipmentKey } from '../knowledge/schema.ts';
import { complaintById } from '../knowledge/trade.ts';
import { equipmentFor } from './case-view.ts';
import { openedCase } from './complaint.ts';
import type { Context, Flow, Move } from './conversation.ts';
import { poolOrFresh } from './conversation.ts';
import type { Understood } from './event.ts';
import { askable, askEquipment, equipmentAnswer } from './profile.ts';
import type { RecordChange } from './record.ts';
import { withChange } from './record.ts';
import type { Say } from './say.ts';

type ProfileFlow = Extract<Flow, { at: 'profile' }>;

function currentKey(flow: ProfileFlow): EquipmentKey | undefined {
  return flow.asks[flow.asked];
}

/** The set-up question that is open. */
export function askSetup(flow: ProfileFlow): Say[] {
  const key = currentKey(flow);
  return key === undefined ? [] : [askEquipment(key)];
}

/** Answers a set-up question and goes to the next one, or to the case. */
export function answerSetup(flow: ProfileFlow, event: Understood, context: Context): Move | undefined {
  const key = currentKey(flow);
  const value = key && equipmentAnswer(key, event);
  if (key === undefined || value === undefined) return undefined;
  const { pool } = poolOrFresh(context);
  const changes: RecordChange[] = value === null ? [] : [{ do: 'equip', pool: pool.id, key, value }];
  const facts = changes.reduce(withChange, context.facts);
  const known = facts.pools.find(({ id }) => id === pool.id)?.equipment ?? {};
  const equipment = equipmentFor(flow.complaint, known);
  const next = complaintById(flow.complaint).asks.find(
    (open) => !flow.asks.includes(open) && askable(open, equipment),
  );
  if (next === undefined) return openedCase(flow.complaint, context, changes, flow.found);
  return { flow: { ...flow, asks: [...flow.asks, next], asked: flow.asked + 1 }, changes };
}

/** Back to the question before; undefined at the first one. */
export function backInSetup(flow: ProfileFlow, context: Context): Move | undefined {
  const previous = flow.asks[flow.asked - 1];
  if (previous === undefined) return { flow: { at: 'complaint' } };
  const { pool } = poolOrFresh(context);
  const changes: RecordChange[] = [{ do: 'equip', pool: pool.id, key: previous, value: null }];
  return { flow: { ...flow, asks: flow.asks.slice(0, flow.asked), asked: flow.asked - 1 }, changes };
}
