/** What a report is counted from: rows of one company, as the store gives them. */
import type { FaultId, SuspectId } from '../../../knowledge/ids.ts';
import type { Equipment } from '../../../knowledge/schema.ts';
import type { CaseOutcome } from '../../say.ts';

/** Cleaner and filter of a pool, as far as they are known. */
export type EquipmentClass = Pick<Equipment, 'cleaner' | 'filter'>;

/** A case that was opened in the period. */
export interface CaseRow extends EquipmentClass {
  id: string;
  outcome?: CaseOutcome;
  /** A visit was asked for and not cancelled. */
  visited: boolean;
}

/** A visit that was asked for in the period. */
export interface VisitRow extends EquipmentClass {
  id: string;
  isCancelled: boolean;
  /** What was suspected when it was asked for. */
  why?: SuspectId;
  openedAt: number;
  /** When somebody of the company took it up. */
  acceptedAt?: number;
}

/** A visit that was closed in the period. */
export interface ClosingRow extends EquipmentClass {
  visit: string;
  cause: SuspectId;
  firstSuspect?: SuspectId;
  minutes?: number;
  /** Who closed it; not there where that person is gone. */
  technician?: { person: string; name: string };
  at: number;
}

/** A cause that was confirmed in the period or within a month before it. */
export interface CauseRow extends EquipmentClass {
  pool: string;
  fault: FaultId;
  at: number;
  by: 'owner' | 'visit';
  /** The technician who confirmed it, as far as that is still known. */
  technician?: string;
}

export interface ReportRows {
  cases: readonly CaseRow[];
  visits: readonly VisitRow[];
  closings: readonly ClosingRow[];
  causes: readonly CauseRow[];
}

/** A stretch of time: from its first moment up to and without its last. */
export interface Period {
  from: number;
  to: number;
}

export const NO_ROWS: ReportRows = { cases: [], visits: [], closings: [], causes: [] };
