/** A case: one complaint at one pool, and everything that happened since. */
import type { Costs } from '../knowledge/costs.ts';
import type { CautionId, CheckId, ComplaintId, FaultId, Quantity } from '../knowledge/ids.ts';
import type { Equipment, Figures, PadChange, Role } from '../knowledge/schema.ts';

/** A gauge's value in SI: pascal for pressures and suctions (suction counted positive), turns a minute for wheels. */
export type Gauges = Partial<Record<Quantity, number>>;

/** What is known before the first question. */
export interface Setting {
  complaint: ComplaintId;
  equipment: Equipment;
  role: Role;
  /** The latest clean reading of each gauge: just after a filter clean with everything working. */
  baseline: Gauges;
  /** Every set of clean readings on record, oldest first. */
  cleanSets: readonly Gauges[];
  /** Numbers known of the pool, SI. */
  figures?: Figures;
  /** Instruments that the pool is known not to have. */
  missing: readonly CheckId[];
  /** How often each fault was confirmed at this pool before. */
  history: Partial<Record<FaultId, number>>;
  costs: Costs;
  /** Factor by which each fault's prior moves by what a company confirmed elsewhere; 1 where left out. */
  learnt?: Partial<Record<FaultId, number>>;
}

export const REPAIR_RESULTS = ['worked', 'not-yet', 'cannot'] as const;
export type RepairResult = (typeof REPAIR_RESULTS)[number];

interface At {
  /** Milliseconds since 1970. */
  at: number;
}

export type CaseEvent = At &
  (
    | { kind: 'answer'; check: CheckId; outcome: string }
    /** `unsteady`: the person said that the needle shakes, or gave a range. */
    | { kind: 'reading'; check: Quantity; value: number; said: string; unsteady?: boolean }
    | { kind: 'retired'; check: CheckId; why: 'unsure' | 'skip' }
    | { kind: 'understood'; caution: CautionId; brings: PadChange }
    | { kind: 'repair'; fault: FaultId; result: RepairResult }
    /** What the person did is no longer certain: an answer was taken back, or a day has passed. */
    | { kind: 'pad-unknown' }
  );

export interface Case {
  setting: Setting;
  events: readonly CaseEvent[];
}

/** Whether an event is an answer of the person to a step, not an acknowledgement or a note about the pad. */
export function isAnswer(event: CaseEvent): boolean {
  return event.kind !== 'understood' && event.kind !== 'pad-unknown';
}

/** Checks that have had their turn, whatever the answer. */
export function checksDone(events: readonly CaseEvent[]): Set<CheckId> {
  return new Set(events.flatMap((event) => ('check' in event ? [event.check] : [])));
}

/** Repairs that have had their turn, whatever the result. */
export function repairsDone(events: readonly CaseEvent[]): Set<FaultId> {
  return new Set(events.flatMap((event) => (event.kind === 'repair' ? [event.fault] : [])));
}
