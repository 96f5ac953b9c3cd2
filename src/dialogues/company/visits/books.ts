/** What is on record of a company's visits, read as it is asked. */
import type { Permit } from '../permit.ts';
import type { Visit } from './visit.ts';

/** `Full` is a case with its pool, as the record has it. */
export interface VisitBooks<Full> {
  /** A visit of the company; for an owner one of their own pools alone. */
  byId(permit: Permit, visit: string): Visit | undefined;
  /** The visit of a pool that is still to be done. */
  openOf(permit: Permit, pool: string): Visit | undefined;
  /** Visits still to be done, the oldest first. */
  open(permit: Permit, limit: number): readonly Visit[];
  openCount(permit: Permit): number;
  /** What the person who asks still has to do on a day or before it, or on no day yet, in the order to do it in. */
  ownDay(permit: Permit, day: string): readonly Visit[];
  /** The code of the gate: told to the technician it is assigned to, until the visit has ended. */
  gateCode(permit: Permit, visit: string): string | undefined;
  /** A case of a pool with all its answers; for an owner of their own pools alone. */
  caseOf(permit: Permit, pool: string, oneCase: string): Full | undefined;
  /** Dispatchers and administrators who can be written to. */
  reachableOffice(permit: Permit): readonly string[];
}

/** The books of somebody who belongs to no company. */
export const NO_VISITS: VisitBooks<never> = {
  byId: () => undefined,
  openOf: () => undefined,
  open: () => [],
  openCount: () => 0,
  ownDay: () => [],
  gateCode: () => undefined,
  caseOf: () => undefined,
  reachableOffice: () => [],
};
