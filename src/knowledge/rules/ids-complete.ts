/** Every id of the trade has data, once. */
import { CAUTION_IDS, CHECK_IDS, COMPLAINT_IDS, DEEPER_CAUSE_IDS, FAULT_IDS } from '../ids.ts';
import type { Breach, Rule } from './breach.ts';

function miscounted(kind: string, ids: readonly string[], pieces: readonly { id: string }[]): Breach[] {
  return ids.flatMap((id) => {
    const count = pieces.filter((piece) => piece.id === id).length;
    if (count === 1) return [];
    const message = count === 0 ? 'has no data' : `has data ${count} times`;
    return [{ path: `${kind}.${id}`, message, tip: 'Write one entry for each id of src/knowledge/ids.ts.' }];
  });
}

export const idsComplete: Rule = ({ faults, checks, cautions, complaints, deeperCauses }) => [
  ...miscounted('faults', FAULT_IDS, faults),
  ...miscounted('checks', CHECK_IDS, checks),
  ...miscounted('cautions', CAUTION_IDS, cautions),
  ...miscounted('complaints', COMPLAINT_IDS, complaints),
  ...miscounted('deeperCauses', DEEPER_CAUSE_IDS, deeperCauses),
];
