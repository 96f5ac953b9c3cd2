/** Which checks show a fault by themselves. */
import type { CheckId, FaultId } from '../knowledge/ids.ts';
import type { Check } from '../knowledge/schema.ts';
import { TRADE } from '../knowledge/trade.ts';

/** A check reveals a fault whose presence turns its usual outcome into another by at least these odds. */
const REVEALING = 0.75;

/** The checks that reveal each fault by themselves. */
export const REVEALED_BY: ReadonlyMap<FaultId, readonly CheckId[]> = new Map(
  TRADE.faults.map(({ id }) => {
    const reveals = ({ given }: Check): boolean => {
      const row = given.find(({ faults }) => faults.includes(id));
      return row !== undefined && row.faults.length === 1 && (row.outcomes[0] ?? 1) < 1 - REVEALING;
    };
    return [id, TRADE.checks.filter(reveals).map((check) => check.id)];
  }),
);
