/** Every kind of pool that the set-up questions tell apart. */
import type { ComplaintId } from '../../src/knowledge/ids.ts';
import type { Equipment, Fault } from '../../src/knowledge/schema.ts';
import { EQUIPMENT } from '../../src/knowledge/schema.ts';
import { complaintById, fits } from '../../src/knowledge/trade.ts';

const CLEANERS: readonly Equipment[] = EQUIPMENT.cleaner.flatMap((cleaner): Equipment[] =>
  cleaner === 'suction'
    ? EQUIPMENT.connection.flatMap((connection) =>
        EQUIPMENT.canister.map((canister) => ({ cleaner, connection, canister })),
      )
    : [{ cleaner }],
);

const FILTERS: readonly Equipment[] = [
  { filter: 'sand', multiport: 'yes' },
  { filter: 'sand', multiport: 'no' },
  { filter: 'cartridge', multiport: 'no' },
  { filter: 'de', multiport: 'yes' },
  { filter: 'de', multiport: 'no' },
];

export const PROFILES: readonly Equipment[] = CLEANERS.flatMap((cleaner) =>
  EQUIPMENT.pump.flatMap((pump) => FILTERS.map((filter) => ({ ...cleaner, pump, ...filter }))),
);

const DRIVEN = ['suction', 'pressure-booster', 'pressure-return'];

/** The complaint with which the owner of such a pool would come about such a fault. */
export function likeliestComplaint(fault: Fault, equipment: Equipment): ComplaintId {
  const ofCirculation = fault.when.cleaner === undefined;
  const drives = DRIVEN.includes(equipment.cleaner ?? '');
  const weight = (id: ComplaintId): number => {
    const complaint = complaintById(id);
    if (!fits(complaint.when, equipment)) return 0;
    return complaint.ofCleaner && ofCirculation && !drives ? 0.01 : (fault.complaints[id] ?? 0);
  };
  const ids = Object.keys(fault.complaints) as ComplaintId[];
  return ids.sort((a, b) => weight(b) - weight(a))[0]!;
}
