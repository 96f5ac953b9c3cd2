/** A visit that an owner asked for, as the dialogues see it. The gate code is never part of it. */

export const VISIT_STATES = ['new', 'accepted', 'assigned', 'on-the-way', 'closed', 'cancelled'] as const;
export type VisitState = (typeof VISIT_STATES)[number];

export interface Visit {
  id: string;
  company: string;
  pool: string;
  poolName: string;
  /** What the company calls the pool, and where it is; empty where not known. */
  reference: string;
  address: string;
  /** The person whose pool it is. */
  owner?: string;
  /** The case that led to it. */
  consult?: string;
  state: VisitState;
  technician?: string;
  /** What colleagues call the technician; empty where not known. */
  technicianName: string;
  /** When it suits: one of the ids of `SUITS`, or the owner's own words; empty where not said. */
  suits: string;
  /** What to know at the gate, save the code. */
  gateNotes: string;
  /** Day, as 2030-06-01. */
  scheduledFor?: string;
  /** Place within the day, from 1. */
  dayOrder?: number;
  openedAt: number;
  acceptedAt?: number;
  endedAt?: number;
}

/** Whether nothing more is going to happen to it. */
export function isEnded({ state }: Pick<Visit, 'state'>): boolean {
  return state === 'closed' || state === 'cancelled';
}
