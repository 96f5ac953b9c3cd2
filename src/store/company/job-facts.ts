/** What jobs look up, and when those they write to are up. */
import type { Database } from 'better-sqlite3';
import type { JobFacts, JobPool } from '../../dialogues/company/job-run.ts';
import type { Job } from '../../dialogues/company/job.ts';
import type { Send } from '../../dialogues/conversation.ts';
import type { Clock } from '../../dialogues/local-time.ts';
import { poolByIdReader } from '../pool-records.ts';
import { companiesOf } from './companies.ts';
import { membershipsOf } from './memberships.ts';
import { visitReader } from './visits.ts';

/** Staff come before owners in the list of people; no company has more of them than this. */
const STAFF_READ = 500;

/** Gives a job its facts; statements are prepared once a database. */
export function jobFactsReader(database: Database): (job: Job, now: number) => JobFacts {
  const companies = companiesOf(database);
  const memberships = membershipsOf(database);
  const visits = visitReader(database);
  const poolById = poolByIdReader(database);
  const caseOf = database.prepare<[string], { pool: string }>('SELECT pool FROM consult WHERE id = ?');
  return (job, now) => {
    const pool = (id: string): JobPool | undefined => {
      const found = poolById(id);
      // A job of a company sees its pools alone; one of a person, their own.
      const isSeen =
        job.company === undefined ? found?.owner === job.person : found?.record.company?.id === job.company;
      if (found === undefined || !isSeen) return undefined;
      const { record, owner } = found;
      return owner === undefined ? record : { ...record, owner };
    };
    return {
      now,
      pool,
      visit: (id) => (job.company === undefined ? undefined : visits(job.company, id)),
      staff: (id) =>
        id === job.company ? memberships.people(id, STAFF_READ).filter(({ role }) => role !== 'owner') : [],
      company: (id) => (id === job.company ? companies.byId(id) : undefined),
      poolOfCase: (id) => {
        const found = caseOf.get(id);
        return found && pool(found.pool);
      },
    };
  };
}

interface ClockRow {
  time_zone: string | null;
  company_zone: string | null;
  heard_at: number;
}

/** When those whom a job of a company writes to are up: by their own zone, else by their company's. */
export function clockReader(database: Database): (to: Send['to'], company: string | undefined) => Clock {
  const person = database.prepare<[string, string], ClockRow>(
    `SELECT person.time_zone, heard_at, company.time_zone AS company_zone FROM person
     LEFT JOIN membership ON membership.person = person.id AND left_at IS NULL
     LEFT JOIN company ON company.id = membership.company
     WHERE person.id = ? ORDER BY company.id = ? DESC, membership.since LIMIT 1`,
  );
  const zoneOf = database.prepare<[string], { time_zone: string }>(
    'SELECT time_zone FROM company WHERE id = ?',
  );
  return (to, company = '') => {
    if ('chat' in to) return { zone: zoneOf.get(company)?.time_zone ?? 'UTC' };
    const row = person.get(to.person, company);
    const zone = row?.time_zone ?? row?.company_zone ?? undefined;
    return zone === undefined ? { lastHeardAt: row?.heard_at ?? 0 } : { zone };
  };
}
