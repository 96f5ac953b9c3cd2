/** What a turn changes about visits. */
import type { FaultId, SuspectId } from '../../../knowledge/ids.ts';
import type { Equipment } from '../../../knowledge/schema.ts';
import type { Reading } from '../../reading.ts';
import type { VisitState } from './visit.ts';

export const VISIT_CHANGES = [
  'open-visit',
  'change-visit',
  'schedule-visit',
  'note-closing',
  'confirm-cause',
] as const;

/** What a technician found and did, as it is kept. */
export interface Closing {
  cause: SuspectId;
  /** What was suspected first when the brief was written. */
  firstSuspect?: SuspectId;
  isRepaired: boolean;
  /** `usual` for the part that goes with the cause, else the technician's words; empty for none. */
  parts: string;
  minutes: number;
  readings: readonly Reading[];
}

export type VisitChange =
  | {
      do: 'open-visit';
      company: string;
      pool: string;
      case: string;
      visit: string;
      suits: string;
      gateNotes: string;
      /** Kept apart from the visit, for the technician it is assigned to alone. */
      code: string;
    }
  /** Nothing is changed where it is no longer in the state it was seen in. */
  | {
      do: 'change-visit';
      company: string;
      visit: string;
      from: VisitState;
      to: VisitState;
      /** Whom it is assigned to from now on. */
      technician?: string;
    }
  /** Gives it a day, as 2030-06-01, at the end of what its technician has to do then. */
  | { do: 'schedule-visit'; company: string; visit: string; day: string }
  /** Keeps what was found, with the pool's record and for the priors of later cases. */
  | {
      do: 'note-closing';
      company: string;
      visit: string;
      case?: string;
      closing: Closing;
      equipment: Equipment;
    }
  /** Keeps the cause of a case that a repair cured without a visit, for the priors of later cases. */
  | { do: 'confirm-cause'; company: string; fault: FaultId; equipment: Equipment };
