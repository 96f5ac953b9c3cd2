/** Jobs that wait to be done, and the reminders that people switched off. */
import type { Database } from 'better-sqlite3';
import type { Job, JobKind, PlanJob, ReminderKind } from '../../dialogues/company/job.ts';

/** A job in the store. */
export interface OpenJob extends Job {
  id: number;
}

export interface Jobs {
  /** Keeps a job; one of the same kind about the same at the same time changes nothing. */
  plan(job: PlanJob): void;
  /** Open jobs whose time has come, the longest waiting first. */
  due(at: number, limit: number): OpenJob[];
  /** Marks a job as done; false where it was, or is gone. */
  done(id: number, at: number): boolean;
  /** An open job is looked at again then. */
  putOff(id: number, until: number): void;
  switchOff(person: string, kind: ReminderKind, pool: string, at: number): void;
  isOff(person: string, kind: ReminderKind, pool: string): boolean;
  /** Forgets what was done before. */
  prune(before: number): void;
}

interface JobRow {
  id: number;
  kind: JobKind;
  about: string;
  person: string | null;
  company: string | null;
  due_at: number;
}

function jobOf({ id, kind, about, person, company, due_at: dueAt }: JobRow): OpenJob {
  return {
    id,
    kind,
    about,
    dueAt,
    ...(person === null ? {} : { person }),
    ...(company === null ? {} : { company }),
  };
}

/** The jobs of a database. */
export function jobsOf(database: Database): Jobs {
  const drop = database.prepare('DELETE FROM job WHERE kind = ? AND about = ? AND done_at IS NULL');
  const insert = database.prepare(
    'INSERT OR IGNORE INTO job (kind, about, person, company, due_at, run_at) VALUES (?, ?, ?, ?, ?, ?)',
  );
  const due = database.prepare<[number, number], JobRow>(
    'SELECT * FROM job WHERE done_at IS NULL AND run_at <= ? ORDER BY run_at, id LIMIT ?',
  );
  const done = database.prepare('UPDATE job SET done_at = ? WHERE id = ? AND done_at IS NULL');
  const putOff = database.prepare('UPDATE job SET run_at = ? WHERE id = ? AND done_at IS NULL');
  const switchOff = database.prepare(
    'INSERT OR IGNORE INTO reminder_off (person, kind, pool, at) VALUES (?, ?, ?, ?)',
  );
  const off = database.prepare<[string, string, string], { at: number }>(
    'SELECT at FROM reminder_off WHERE person = ? AND kind = ? AND pool = ?',
  );
  const forget = database.prepare('DELETE FROM job WHERE done_at < ?');
  return {
    plan: ({ kind, about, person, company, dueAt, instead }) => {
      if (instead === true) drop.run(kind, about);
      insert.run(kind, about, person ?? null, company ?? null, dueAt, dueAt);
    },
    due: (at, limit) => due.all(at, limit).map(jobOf),
    done: (id, at) => done.run(at, id).changes > 0,
    putOff: (id, until) => void putOff.run(until, id),
    switchOff: (person, kind, pool, at) => void switchOff.run(person, kind, pool, at),
    isOff: (person, kind, pool) => off.get(person, kind, pool) !== undefined,
    prune: (before) => void forget.run(before),
  };
}
