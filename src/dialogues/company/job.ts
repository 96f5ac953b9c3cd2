/** Things to be done later: kept in the store, run by the program when they are due. */

export const JOB_KINDS = [
  'still-running',
  'filter-clean',
  'same-fault',
  'accept-late',
  'accept-escalate',
] as const;
export type JobKind = (typeof JOB_KINDS)[number];

/** Reminders to a person, who can switch each kind off. */
export const REMINDER_KINDS = ['still-running', 'filter-clean'] as const satisfies readonly JobKind[];
export type ReminderKind = (typeof REMINDER_KINDS)[number];

export interface Job {
  kind: JobKind;
  /** Id of what it is about: a case, a pool, a visit. */
  about: string;
  /** Milliseconds since 1970. */
  dueAt: number;
  /** Whom it is for; it goes with them. */
  person?: string;
  /** The company it is done for; it goes with it. */
  company?: string;
}

/** The change that has a job done when it is due. The same job twice changes nothing. */
export interface PlanJob extends Job {
  do: 'plan-job';
  /** Open jobs of its kind about the same are dropped: this one takes their place. */
  instead?: true;
}
