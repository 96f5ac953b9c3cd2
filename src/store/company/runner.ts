/** Jobs as the program runs them. */
import type { Database } from 'better-sqlite3';
import type { JobFacts } from '../../dialogues/company/job-run.ts';
import type { Job } from '../../dialogues/company/job.ts';
import type { Send } from '../../dialogues/conversation.ts';
import type { Clock } from '../../dialogues/local-time.ts';
import type { RecordChange } from '../../dialogues/record.ts';
import { changeWriter } from '../changes.ts';
import type { Letter } from '../entries.ts';
import type { Outbox } from '../outbox.ts';
import { clockReader, jobFactsReader } from './job-facts.ts';
import type { Jobs, OpenJob } from './jobs.ts';
import { jobsOf } from './jobs.ts';

/** The jobs of a store. What is done of one job belongs into one transaction. */
export interface JobRunner extends Pick<Jobs, 'due' | 'done' | 'putOff' | 'plan' | 'isOff' | 'prune'> {
  factsOf(job: Job, now: number): JobFacts;
  /** When a receiver of what a job sends is up. */
  clockOf(to: Send['to'], company: string | undefined): Clock;
  /** Writes what a job came to. */
  write(job: OpenJob, changes: readonly RecordChange[], letters: readonly Letter[], at: number): void;
}

/** The jobs of a database. */
export function jobRunnerOf(database: Database, outbox: Outbox): JobRunner {
  const write = changeWriter(database);
  return {
    ...jobsOf(database),
    factsOf: jobFactsReader(database),
    clockOf: clockReader(database),
    write: (job, changes, letters, at) => {
      for (const change of changes) write(change, job.person ?? '', at);
      for (const letter of letters) outbox.add({ ...letter, version: 0 }, at);
    },
  };
}
