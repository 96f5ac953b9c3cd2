/** What is kept of a visit while it is being closed. */
import type { SaidClosing } from '../../event.ts';
import type { SuspectId } from '../../../knowledge/ids.ts';

/** What a technician said of a visit so far; the cause is chosen once it is clear. */
export interface ClosingSoFar extends Omit<SaidClosing, 'causes'> {
  /** Causes to choose from, where the words fit several. */
  causes: readonly SuspectId[];
  cause?: SuspectId;
}
