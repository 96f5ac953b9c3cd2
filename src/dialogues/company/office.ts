/**
 * What is too much to be read before every turn: a company may have fifty thousand pools. Each answer is of the same
 * moment as the other facts of the turn. Nothing of a company is told without a permit for it.
 */
import type { Colleague, ImportPlan, Offer, OpenInvitation, PoolLine } from './company.ts';
import type { Permit } from './permit.ts';
import type { Period, ReportRows } from './report/rows.ts';
import { NO_ROWS } from './report/rows.ts';
import type { VisitBooks } from './visits/books.ts';
import { NO_VISITS } from './visits/books.ts';

/** `Full` is a case with its pool, as the record has it. */
export interface Office<Full> {
  /** What the link with this payload offers; undefined where it is not open, or the person has to wait. */
  offerOf(payload: string): Offer | undefined;
  /** What an invitation offers that the person has opened before; undefined where it is no longer open. */
  offerAgain(invitation: string): Offer | undefined;
  /** Pools whose name, reference or address holds the text, by name. */
  pools(permit: Permit, text: string, limit: number): readonly PoolLine[];
  pool(permit: Permit, pool: string): PoolLine | undefined;
  poolCount(permit: Permit): number;
  invitations(permit: Permit, limit: number): readonly OpenInvitation[];
  /** What a report on a stretch of time is counted from. */
  reportRows(permit: Permit, period: Period): ReportRows;
  people(permit: Permit, limit: number): readonly Colleague[];
  /** What an import of a file that this person sent would do; undefined where the file is gone. */
  plan(permit: Permit, upload: string): ImportPlan | undefined;
  visits: VisitBooks<Full>;
}

/** The office of somebody who belongs to no company. */
export const NO_OFFICE: Office<never> = {
  offerOf: () => undefined,
  offerAgain: () => undefined,
  pools: () => [],
  pool: () => undefined,
  poolCount: () => 0,
  invitations: () => [],
  reportRows: () => NO_ROWS,
  people: () => [],
  plan: () => undefined,
  visits: NO_VISITS,
};
