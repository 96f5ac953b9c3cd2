/**
 * An observer of a conversation that knows only what a person sees and does: which cautions were acknowledged, and
 * when the pump was off, running again, the lid shut. It judges every step by the trade's table alone.
 */
import type { Understood } from '../../src/dialogues/event.ts';
import type { Say } from '../../src/dialogues/say.ts';
import type { CautionId, CheckId, FaultId } from '../../src/knowledge/ids.ts';
import type { Equipment, Role, Step } from '../../src/knowledge/schema.ts';
import { cautionById, checkById, faultById, fits } from '../../src/knowledge/trade.ts';

export interface Observed {
  acknowledged: readonly CautionId[];
  pumpOff: boolean;
}

export const NOTHING_SEEN: Observed = { acknowledged: [], pumpOff: false };

function stepOf(say: Say): Step | undefined {
  if (say.kind === 'check' || say.kind === 'reading') return checkById(say.id as CheckId);
  return say.kind === 'repair' ? faultById(say.id as FaultId).repair : undefined;
}

/** Whatever was acknowledged of the pump is void once the pump has changed. */
function pumpChanged(acknowledged: readonly CautionId[]): CautionId[] {
  return acknowledged.filter((id) => !cautionById(id).guards.includes('pump'));
}

/** What the observer knows after a message was answered. */
export function observe(seen: Observed, asked: Say | undefined, event: Understood): Observed {
  if (asked === undefined || event.kind !== 'answer') return seen;
  if (asked.kind === 'caution' && event.option === 'understood') {
    const id = asked.id as CautionId;
    const stops = (id === 'pump-off' || id === 'power-lockout') && !seen.pumpOff;
    if (stops) return { acknowledged: [...pumpChanged(seen.acknowledged), id], pumpOff: true };
    return { ...seen, acknowledged: [...seen.acknowledged, id] };
  }
  const step = stepOf(asked);
  const done = step !== undefined && !['cannot', 'skip', 'unsure'].includes(event.option);
  if (!done || step.leaves.pump !== 'running') return seen;
  return { acknowledged: pumpChanged(seen.acknowledged), pumpOff: false };
}

/** What is wrong with putting this message to this person now, or undefined where it is safe. */
export function breach(say: Say, seen: Observed, role: Role, equipment: Equipment): string | undefined {
  const step = stepOf(say);
  if (step === undefined) return undefined;
  if (step.class === 4 || (role === 'owner' && step.class === 3))
    return `${role} is shown ${say.id} of class ${step.class}`;
  if (step.needs.pump === 'running' && seen.pumpOff && !seen.acknowledged.includes('restart-swimmers'))
    return `${say.id} needs the pump running, and nobody was told how to restart it`;
  if (step.needs.pump === 'off' && !seen.pumpOff && !seen.acknowledged.includes('power-lockout'))
    return `${say.id} needs the pump off, and it was not switched off`;
  const missing = step.cautions
    .filter(({ when }) => fits(when ?? {}, equipment))
    .map(({ id }) => id)
    .filter((id) => !seen.acknowledged.includes(id));
  return missing.length === 0 ? undefined : `${say.id} comes without ${missing.join(', ')}`;
}

/** What a person was told without being asked to confirm it: how the pump is restarted, as a case ends with it off. */
export function afterTold(seen: Observed, says: readonly Say[]): Observed {
  const told = says.some(({ kind, id }) => kind === 'info' && id === 'restart-swimmers');
  return told ? { ...seen, acknowledged: [...seen.acknowledged, 'restart-swimmers'] } : seen;
}

/**
 * After a step that needs the pump running was shown, the pump runs: since the restart caution was acknowledged. What
 * was acknowledged of the pump before that is void.
 */
export function afterShown(seen: Observed, say: Say | undefined): Observed {
  const runsAgain = say !== undefined && stepOf(say)?.needs.pump === 'running' && seen.pumpOff;
  if (!runsAgain) return seen;
  const since = Math.max(0, seen.acknowledged.lastIndexOf('restart-swimmers'));
  const acknowledged = [...pumpChanged(seen.acknowledged.slice(0, since)), ...seen.acknowledged.slice(since)];
  return { acknowledged, pumpOff: false };
}
