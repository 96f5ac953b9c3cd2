/** What is done when a job is due, by its kind. */
import { remindOfFilter } from './filter-date.ts';
import type { JobFacts, JobHandler, JobMove } from './job-run.ts';
import type { Job, JobKind } from './job.ts';
import { tellSameFault } from './repeat.ts';
import { askStillRunning } from './still-running.ts';
import { acceptEscalate, acceptLate } from './visits/late.ts';

const HANDLERS: Readonly<Record<JobKind, JobHandler>> = {
  'still-running': askStillRunning,
  'filter-clean': remindOfFilter,
  'same-fault': tellSameFault,
  'accept-late': acceptLate,
  'accept-escalate': acceptEscalate,
};

/** What a job comes to. */
export function ran(job: Job, facts: JobFacts): JobMove {
  return HANDLERS[job.kind](job, facts);
}
