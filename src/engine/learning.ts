/**
 * Learning how often each fault is met from the causes that were confirmed: for one company, and within it for one
 * class of equipment. The table's shares are a Dirichlet prior worth a stated number of cases; what was confirmed long
 * ago fades; no fault is ever learnt away.
 */
import { DAY_MS } from '../calc/units.ts';
import { dirichletMean, faded } from '../calc/dirichlet.ts';
import type { FaultId } from '../knowledge/ids.ts';
import type { Equipment } from '../knowledge/schema.ts';

/** How many confirmed cases of a class the table's shares are worth. */
export const SAMPLE_SIZE = 40;
/** After so long a confirmed case counts half. */
export const HALF_LIFE_MS = 730 * DAY_MS;
/** No fault's share falls below this part of its share in the table. */
export const FLOOR = 0.25;
/** A suspicion was moved by history where its share changed by at least this factor, up or down. */
const WORTH_SAYING = 1.25;

/** A cause that was confirmed: a repair that worked, or a visit's finding. */
export interface Confirmed {
  fault: FaultId;
  equipment: Equipment;
  /** Milliseconds since 1970. */
  at: number;
}

/** The class of equipment whose cases tell of each other: the cleaner's kind and the filter's. */
export function equipmentClass({ cleaner, filter }: Equipment): string {
  return `${cleaner ?? 'any'}/${filter ?? 'any'}`;
}

/** What the confirmed causes of one class count at a time, faded. */
export function fadedCounts(
  confirmed: readonly Confirmed[],
  equipment: Equipment,
  now: number,
): ReadonlyMap<FaultId, number> {
  const own = equipmentClass(equipment);
  const counts = new Map<FaultId, number>();
  for (const { fault, at, equipment: where } of confirmed)
    if (equipmentClass(where) === own)
      counts.set(fault, (counts.get(fault) ?? 0) + faded(now - at, HALF_LIFE_MS));
  return counts;
}

/**
 * Factor by which each fault's prior share moves, learnt from a company's confirmed causes in one class of equipment.
 * @param shares prior share of each fault of the pool, before any complaint; sums to one.
 * @param counts confirmed cases of each fault, see `fadedCounts`; those of other faults are left out.
 * @returns learnt share over prior share, at least `FLOOR`; 1 without a case.
 */
export function learntFactors(
  shares: ReadonlyMap<FaultId, number>,
  counts: ReadonlyMap<FaultId, number>,
): ReadonlyMap<FaultId, number> {
  const faults = [...shares.keys()];
  const prior = faults.map((fault) => shares.get(fault) ?? 0);
  const seen = faults.map((fault) => counts.get(fault) ?? 0);
  const learnt = dirichletMean(prior, SAMPLE_SIZE, seen);
  return new Map(
    faults.map((fault, index) => {
      const before = prior[index] ?? 0;
      return [fault, before > 0 ? Math.max(FLOOR, (learnt[index] ?? 0) / before) : 1];
    }),
  );
}

/** Whether history moved a suspicion enough to say so, and which way. */
export function movedByHistory(factor: number): 'raised' | 'lowered' | undefined {
  if (factor >= WORTH_SAYING) return 'raised';
  return factor <= 1 / WORTH_SAYING ? 'lowered' : undefined;
}
