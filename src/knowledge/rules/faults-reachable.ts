/** Every fault is led to by some complaint that a pool with that fault can have. */
import { FAULT_IDS } from '../ids.ts';
import type { Fault, Trade } from '../schema.ts';
import type { Breach, Rule } from './breach.ts';
import { canMeet } from './breach.ts';

function isReached(fault: Fault, { complaints }: Trade): boolean {
  return complaints.some(({ id, when }) => (fault.complaints[id] ?? 0) > 0 && canMeet(when, fault.when));
}

/** Rows of a check for faults that no pool the check fits can have. */
function idleRows({ checks, faults }: Trade): Breach[] {
  return checks.flatMap(({ id, when, given }) =>
    FAULT_IDS.filter((fault) => given.some((row) => row.faults.includes(fault)))
      .filter((fault) => faults.some((known) => known.id === fault && !canMeet(when, known.when)))
      .map((fault) => ({
        path: `checks.${id}.given`,
        message: `no pool that the check fits can have "${fault}"`,
        tip: 'Remove the fault from the row, or widen the condition of the check.',
      })),
  );
}

export const faultsReachable: Rule = (trade) => [
  ...trade.faults
    .filter((fault) => !isReached(fault, trade))
    .map(({ id }) => ({
      path: `faults.${id}.complaints`,
      message: 'no complaint of a pool that can have it leads to it',
      tip: 'List a complaint that the same kind of pool can have.',
    })),
  ...idleRows(trade),
];
