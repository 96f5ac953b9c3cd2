/** A case at a pool of which nothing is on record. */
import type { Case, CaseEvent, Setting } from '../../src/engine/case.ts';
import { DEFAULT_COSTS } from '../../src/knowledge/costs.ts';
import type { CheckId, FaultId } from '../../src/knowledge/ids.ts';

type Known = Pick<Setting, 'complaint' | 'equipment'> & Partial<Setting>;

/** An owner's case, if nothing else is given, after these events. */
export function plainCase(known: Known, ...events: CaseEvent[]): Case {
  const nothing = { baseline: {}, cleanSets: [], missing: [], history: {}, costs: DEFAULT_COSTS };
  return { setting: { role: 'owner', ...nothing, ...known }, events };
}

export function answer(check: CheckId, outcome: string): CaseEvent {
  return { kind: 'answer', check, outcome, at: 0 };
}

export function retired(check: CheckId, why: 'unsure' | 'skip'): CaseEvent {
  return { kind: 'retired', check, why, at: 0 };
}

export function notYet(fault: FaultId): CaseEvent {
  return { kind: 'repair', fault, result: 'not-yet', at: 0 };
}
