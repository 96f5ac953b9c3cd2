/** A brief that nobody accepts in time: a reminder, and after as long again a word to those who run the company. */
import { MINUTE_MS } from '../../../calc/units.ts';
import type { Send } from '../../conversation.ts';
import type { Colleague, Company } from '../company.ts';
import type { JobFacts, JobMove } from '../job-run.ts';
import type { Job, JobKind, PlanJob } from '../job.ts';
import { toStaffChat } from '../sends.ts';
import type { Visit } from './visit.ts';
import { standing, visitLine } from './words.ts';
import { text } from '../../say.ts';
import type { Say } from '../../say.ts';

type LateKind = Extract<JobKind, 'accept-late' | 'accept-escalate'>;

/** The change that looks, after the company's time to accept, whether a brief was accepted. */
export function latePlan(kind: LateKind, visit: string, company: Company, now: number): PlanJob {
  const dueAt = now + company.acceptWithinMinutes * MINUTE_MS;
  return { do: 'plan-job', kind, about: visit, company: company.id, dueAt };
}

function lateSay(key: string, visit: Visit, now: number): Say {
  const words = text(key, { visit: visitLine(visit, now) });
  return standing('visit-late', words, ['accept-visit', 'assign-visit', 'open-visit'], visit.id);
}

function toEach(people: readonly Colleague[], say: Say, about: string): Send[] {
  const persons = [...new Set(people.map(({ person }) => person))];
  return persons.map((person) => ({ to: { person }, says: [say], about }));
}

/** What is still late; undefined where it was accepted or has ended meanwhile. */
function lateOne(job: Job, facts: JobFacts): { visit: Visit; company: Company } | undefined {
  const visit = facts.visit(job.about);
  const company = job.company === undefined ? undefined : facts.company(job.company);
  return visit?.state === 'new' && company !== undefined ? { visit, company } : undefined;
}

/** Reminds the staff chat, or the office where there is none, and plans the escalation. */
export function acceptLate(job: Job, facts: JobFacts): JobMove {
  const late = lateOne(job, facts);
  if (late === undefined) return {};
  const { visit, company } = late;
  const say = lateSay('visits:late.reminder', visit, facts.now);
  const office = facts.staff(company.id).filter(({ role }) => role !== 'technician');
  const sends =
    company.staffChat === undefined
      ? toEach(office, say, visit.pool)
      : toStaffChat(company, [say], visit.pool);
  return { sends, changes: [latePlan('accept-escalate', visit.id, company, facts.now)] };
}

/** Tells every administrator, each in their own conversation. */
export function acceptEscalate(job: Job, facts: JobFacts): JobMove {
  const late = lateOne(job, facts);
  if (late === undefined) return {};
  const { visit, company } = late;
  const administrators = facts.staff(company.id).filter(({ role }) => role === 'administrator');
  return { sends: toEach(administrators, lateSay('visits:late.escalation', visit, facts.now), visit.pool) };
}
