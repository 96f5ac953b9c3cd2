import type { EmergencyId } from '../../knowledge/ids.ts';

/** How people say that something is wrong, and the turns of phrase with the same words that mean nothing bad. */
export interface EmergencyRule {
  id: EmergencyId;
  says: readonly string[];
  /** Takes back a finding with which it shares a word. */
  unless: readonly string[];
}
