/** What a job sees and comes to when it is run. */
import type { Send } from '../conversation.ts';
import type { PoolRecord, RecordChange } from '../record.ts';
import type { Colleague, Company } from './company.ts';
import type { Job } from './job.ts';
import type { Visit } from './visits/visit.ts';

/** A pool as a job sees it. */
export interface JobPool extends PoolRecord {
  /** Whose it is, if anybody's. */
  owner?: string;
}

/** What a job may look up, as it is when the job is run. What is of another company than the job's is not found. */
export interface JobFacts {
  now: number;
  company(id: string): Company | undefined;
  pool(id: string): JobPool | undefined;
  /** A visit of the job's company. */
  visit(id: string): Visit | undefined;
  /** Everybody who works for the job's company. */
  staff(company: string): readonly Colleague[];
  /** The pool of a case. */
  poolOfCase(id: string): JobPool | undefined;
}

/** What a job comes to. Nothing where what it was planned for no longer matters. */
export interface JobMove {
  sends?: readonly Send[];
  changes?: readonly RecordChange[];
  /** When it is due anew. */
  again?: number;
}

/** Pure: what one job comes to by the facts. */
export type JobHandler = (job: Job, facts: JobFacts) => JobMove;
