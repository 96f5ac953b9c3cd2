/** The trade's data with one thing changed. */
import type { CautionId, CheckId, ComplaintId, DeeperCauseId, FaultId } from '../../src/knowledge/ids.ts';
import type { Caution, Check, Complaint, DeeperCause, Fault, Trade } from '../../src/knowledge/schema.ts';
import { TRADE } from '../../src/knowledge/trade.ts';

function replaced<T extends { id: string }>(pieces: readonly T[], id: string, change: (piece: T) => T): T[] {
  if (!pieces.some((piece) => piece.id === id)) throw new Error(`There is no "${id}" to break`);
  return pieces.map((piece) => (piece.id === id ? change(piece) : piece));
}

export function brokenFault(id: FaultId, change: (fault: Fault) => Fault): Trade {
  return { ...TRADE, faults: replaced(TRADE.faults, id, change) };
}
export function brokenRepair(id: FaultId, change: Partial<Fault['repair']>): Trade {
  return brokenFault(id, (fault) => ({ ...fault, repair: { ...fault.repair, ...change } }));
}
export function brokenCheck(id: CheckId, change: Partial<Check>): Trade {
  return { ...TRADE, checks: replaced(TRADE.checks, id, (check) => ({ ...check, ...change })) };
}
export function brokenCaution(id: CautionId, change: Partial<Caution>): Trade {
  return { ...TRADE, cautions: replaced(TRADE.cautions, id, (caution) => ({ ...caution, ...change })) };
}
export function brokenComplaint(id: ComplaintId, change: Partial<Complaint>): Trade {
  return {
    ...TRADE,
    complaints: replaced(TRADE.complaints, id, (complaint) => ({ ...complaint, ...change })),
  };
}
export function brokenDeeperCause(id: DeeperCauseId, change: Partial<DeeperCause>): Trade {
  return {
    ...TRADE,
    deeperCauses: replaced(TRADE.deeperCauses, id, (cause) => ({ ...cause, ...change })),
  };
}
/** Without one of the cautions before a repair. */
export function repairWithout(id: FaultId, caution: CautionId): Trade {
  return brokenFault(id, (fault) => ({
    ...fault,
    repair: { ...fault.repair, cautions: fault.repair.cautions.filter((one) => one.id !== caution) },
  }));
}
/** Without one of the cautions before a check. */
export function checkWithout(id: CheckId, caution: CautionId): Trade {
  const cautions = TRADE.checks.find((check) => check.id === id)?.cautions ?? [];
  return brokenCheck(id, { cautions: cautions.filter((one) => one.id !== caution) });
}
