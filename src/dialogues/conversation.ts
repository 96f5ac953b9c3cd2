/** The state of one conversation: plain JSON, versioned, one variant for each thing the bot can be waiting for. */
import type { NextStep } from '../engine/next.ts';
import type { CautionId, ComplaintId, Quantity } from '../knowledge/ids.ts';
import type { EquipmentKey, FigureKey, PadChange, Role } from '../knowledge/schema.ts';
import type { CalculatorId, Values } from './calculators/fields.ts';
import type { Unconfirmed } from './confirmation.ts';
import type { Locale, ReadingUnit } from './event.ts';
import type { Say } from './say.ts';
import type { Facts, PoolRecord, RecordChange } from './record.ts';

export const STATE_VERSION = 1;

export type ConsultPrompt =
  NextStep | { kind: 'caution'; caution: CautionId; brings: PadChange; before: NextStep };

export type Flow =
  | { at: 'language'; then: Flow }
  | { at: 'role'; then: Flow }
  | { at: 'complaint'; said?: ComplaintId }
  | { at: 'profile'; asks: EquipmentKey[]; asked: number; complaint: ComplaintId }
  | { at: 'edit-pool'; then: Flow }
  | { at: 'edit-equipment'; key: EquipmentKey | FigureKey; then: Flow }
  | { at: 'consult'; case: string; prompt: ConsultPrompt }
  | { at: 'still-open'; then: Flow }
  | { at: 'baseline-offer' }
  | { at: 'gauge'; quantities: Quantity[]; asked: number; clean: boolean; then: Flow }
  | { at: 'doubt'; quantity: Quantity; unit: ReadingUnit; slips: number[]; then: Flow }
  | { at: 'confirm'; unconfirmed: Unconfirmed; then: Flow }
  | { at: 'pools'; then: Flow }
  | { at: 'pool-name'; then: Flow }
  | { at: 'erase'; then: Flow }
  | {
      at: 'calculate';
      calculator: CalculatorId;
      /** How many of its cautions were acknowledged. */
      heard: number;
      values: Values;
      /** Amounts that wait for a choice before they find their places. */
      line?: string;
      then: Flow;
    };

export interface Conversation {
  version: typeof STATE_VERSION;
  locale: Locale;
  role: Role;
  /** The pool being talked about; empty until there is one. */
  pool: string;
  flow: Flow;
  /** When the person last wrote, milliseconds since 1970. */
  heardAt: number;
}

/** What a dialogue sees. */
export interface Context {
  conversation: Conversation;
  facts: Facts;
}

/** What a dialogue answers with: where to go, what to record, what to say before asking on. */
export interface Move {
  flow: Flow;
  changes?: readonly RecordChange[];
  says?: readonly Say[];
  set?: Partial<Pick<Conversation, 'locale' | 'role' | 'pool'>>;
  /** Nothing is asked after what was said. */
  quiet?: boolean;
}

/** A conversation nobody has spoken in yet. */
export function newConversation(locale: Locale, role: Role, flow: Flow): Conversation {
  return { version: STATE_VERSION, locale, role, pool: '', flow, heardAt: 0 };
}

/** The pool being talked about, if there is one. */
export function currentPool({ conversation, facts }: Context): PoolRecord | undefined {
  return facts.pools.find((pool) => pool.id === conversation.pool);
}

/** The pool being talked about, or a fresh one with the change that creates it. */
export function poolOrFresh(context: Context): { pool: PoolRecord; changes: RecordChange[] } {
  const pool = currentPool(context) ?? context.facts.pools[0];
  if (pool !== undefined) return { pool, changes: [] };
  const id = context.facts.freshId;
  const fresh: PoolRecord = {
    id,
    name: '',
    equipment: {},
    figures: {},
    missing: [],
    readings: [],
    cases: [],
  };
  return { pool: fresh, changes: [{ do: 'create-pool', pool: id, name: '' }] };
}
