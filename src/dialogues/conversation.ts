/** The state of one conversation: plain JSON, versioned, one variant for each thing the bot can be waiting for. */
import type { NextStep } from '../engine/next.ts';
import type { CautionId, ComplaintId, Quantity } from '../knowledge/ids.ts';
import type { EquipmentKey, FigureKey, PadChange, Role } from '../knowledge/schema.ts';
import type { CalculatorId, Values } from './calculators/fields.ts';
import type { CompanyRole, ImportPlan } from './company/company.ts';
import type { CompanySetting } from './company/changes.ts';
import type { ReminderKind } from './company/job.ts';
import type { ClosingSoFar } from './company/visits/flow.ts';
import type { Unconfirmed } from './confirmation.ts';
import type { CommandId, Finding, Locale, ReadingUnit, SaidClosing, Understood } from './event.ts';
import type { Say } from './say.ts';
import type { Facts, PoolRecord, RecordChange } from './record.ts';

export const STATE_VERSION = 1;

export type ConsultPrompt =
  NextStep | { kind: 'caution'; caution: CautionId; brings: PadChange; before: NextStep };

/** What a pool of the company is looked for: to invite its owner, to write to them, or to talk about it. */
export type PoolPurpose = 'invite' | 'send' | 'talk';

/** What an import would do, as it was told. */
export type ImportCounts = Pick<ImportPlan, 'lines' | 'fresh' | 'changed' | 'same' | 'examples'>;

export type Flow =
  | { at: 'language'; then: Flow }
  | { at: 'role'; then: Flow }
  /** `said`: what is wrong, told before; `found`: what was seen, told with it. */
  | { at: 'complaint'; said?: ComplaintId; found?: readonly Finding[] }
  | {
      at: 'profile';
      asks: EquipmentKey[];
      asked: number;
      complaint: ComplaintId;
      found?: readonly Finding[];
    }
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
  | { at: 'join'; invitation: string; then: Flow }
  | { at: 'which-company'; command: CommandId; argument: string; then: Flow }
  | { at: 'invite'; company: string; then: Flow }
  | { at: 'find-pool'; company: string; purpose: PoolPurpose; text: string; then: Flow }
  | { at: 'invitations'; company: string; then: Flow }
  | { at: 'people'; company: string; then: Flow }
  | { at: 'company-settings'; company: string; then: Flow }
  | { at: 'company-setting'; company: string; key: CompanySetting['key']; then: Flow }
  | { at: 'own-name'; then: Flow }
  | { at: 'remove-person'; company: string; person: string; role: CompanyRole; then: Flow }
  | { at: 'import'; company: string; upload: string; counts: ImportCounts; then: Flow }
  | { at: 'leave'; company: string; then: Flow }
  | { at: 'zone'; then: Flow }
  | { at: 'report'; company: string; then: Flow }
  /** Whether a visit is wanted, when it suits, and what to know at the gate. */
  | {
      at: 'visit-wanted';
      ask: 'wanted' | 'suits' | 'gate' | 'code';
      company: string;
      pool: string;
      case: string;
      suits: string;
      gateNotes: string;
      then: Flow;
    }
  /** Visits to choose from: those that are open, those of the day, or those that could be closed now. */
  | {
      at: 'visit-list';
      list: 'queue' | 'today' | 'close';
      company: string;
      /** What was said of the visit before it was clear which. */
      said?: SaidClosing;
      then: Flow;
    }
  | { at: 'assign-visit' | 'schedule-visit'; company: string; visit: string; then: Flow }
  | { at: 'ask-owner' | 'answer-company' | 'cancel-visit'; company: string; visit: string; then: Flow }
  | {
      at: 'close-visit';
      company: string;
      visit: string;
      /** The whole list of causes is shown from here; from the likeliest where undefined. */
      page?: number;
      sofar: ClosingSoFar;
      then: Flow;
    }
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
  /** What is said in other conversations. */
  sends?: readonly Send[];
  set?: Partial<Pick<Conversation, 'locale' | 'role' | 'pool'>>;
  /** What was said stands beside the open question, which stays open with its buttons; nothing else is asked. */
  aside?: boolean;
  /** Nothing is asked after what was said. */
  quiet?: boolean;
}

/** Messages to another conversation, delivered after those that wait there. */
export interface Send {
  /** A person, in their own conversation; or a conversation by its id. */
  to: { person: string } | { chat: string };
  /** That of the receiver where left out. */
  locale?: Locale;
  says: readonly Say[];
  /** The pool they tell of: removed with it. */
  about?: string;
  /** A reminder, which its receiver can switch off; only jobs send one. */
  reminder?: { kind: ReminderKind; pool: string };
}

/** What a flow waits for: what it asks, and what an answer does; undefined where it is none. */
export interface Question<F extends Flow> {
  ask(flow: F, context: Context): Say[];
  answer(flow: F, event: Understood, context: Context): Move | undefined;
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
