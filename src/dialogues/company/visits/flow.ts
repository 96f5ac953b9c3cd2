/** What the bot can be waiting for about visits. */
import type { SaidClosing } from '../../event.ts';
import type { SuspectId } from '../../../knowledge/ids.ts';
import type { Flow } from '../../conversation.ts';

/** What a technician said of a visit so far; the cause is chosen once it is clear. */
export interface ClosingSoFar extends Omit<SaidClosing, 'causes'> {
  /** Causes to choose from, where the words fit several. */
  causes: readonly SuspectId[];
  cause?: SuspectId;
}

export type VisitFlow =
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
    };
