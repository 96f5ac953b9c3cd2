/** Doing what is due: each job exactly once, in one transaction with the messages that it sends. */
import { DAY_MS, HOUR_MS } from '../calc/units.ts';
import { Cron } from 'croner';
import type { Logger } from 'pino';
import { ran } from '../dialogues/company/jobs.ts';
import { withSwitches } from '../dialogues/company/reminders.ts';
import type { Send } from '../dialogues/conversation.ts';
import { wakingTime } from '../dialogues/local-time.ts';
import type { OpenJob } from '../store/company/jobs.ts';
import { StoreUnusable } from '../store/database.ts';
import type { Store } from '../store/store.ts';
import { lettersOf } from './letters.ts';
import { errorFacts } from './log.ts';

export interface ScheduleParts {
  store: Store;
  now: () => number;
  log?: Logger;
}

/** A job that keeps failing is given up after this long. */
const TRIED_FOR_MS = 7 * DAY_MS;
/** Jobs that are looked at in one go. */
const GROUP = 50;

/** From when on nobody who gets one of these is woken by it. */
function calmTime(
  sends: readonly Send[],
  { company }: OpenJob,
  { store }: ScheduleParts,
  now: number,
): number {
  return Math.max(now, ...sends.map(({ to }) => wakingTime(now, store.jobs.clockOf(to, company))));
}

/** What is sent of it, without the reminders that their receivers switched off. */
function wanted(sends: readonly Send[], { jobs }: Store): Send[] {
  return sends.filter(
    ({ to, reminder }) =>
      reminder === undefined || !('person' in to) || !jobs.isOff(to.person, reminder.kind, reminder.pool),
  );
}

/** Runs one job; returns the conversations that something is said in. */
function done(job: OpenJob, parts: ScheduleParts, now: number): string[] {
  const { store } = parts;
  const { sends = [], changes = [], again } = ran(job, store.jobs.factsOf(job, now));
  const kept = wanted(sends, store);
  const calm = calmTime(kept, job, parts, now);
  if (calm > now) {
    store.jobs.putOff(job.id, calm);
    return [];
  }
  // Another loop may have been faster.
  if (!store.jobs.done(job.id, now)) return [];
  const letters = lettersOf(kept.map(withSwitches), store);
  store.jobs.write(job, changes, letters, now);
  if (again !== undefined) store.jobs.plan({ ...job, do: 'plan-job', dueAt: again });
  return letters.map(({ conversation }) => conversation);
}

/** Runs one job in a transaction of its own; one that fails is logged and tried again later, and holds up no other. */
function doneSafely(job: OpenJob, parts: ScheduleParts, now: number): string[] {
  const { store, log } = parts;
  try {
    return store.together(() => done(job, parts, now));
  } catch (error) {
    if (error instanceof StoreUnusable) throw error;
    log?.error({ job: job.kind, ...errorFacts(error) }, 'job failed');
    if (now - job.dueAt > TRIED_FOR_MS) store.jobs.done(job.id, now);
    else store.jobs.putOff(job.id, now + HOUR_MS);
    return [];
  }
}

/** Does everything that is due; returns the conversations that something is said in. Throws StoreUnusable. */
export function runDue(parts: ScheduleParts): string[] {
  const { store } = parts;
  const now = parts.now();
  const woken = new Set<string>();
  // Whatever becomes of a job, it is not due any more: the loop ends.
  for (let group = store.jobs.due(now, GROUP); group.length > 0; group = store.jobs.due(now, GROUP))
    for (const job of group) for (const one of doneSafely(job, parts, now)) woken.add(one);
  return [...woken];
}

/** Looks every minute for what is due, and at once. */
export function startSchedule(
  parts: ScheduleParts,
  wake: (conversation: string) => void,
  onUnusable: (error: unknown) => void,
): { stop(): void } {
  const tick = (): void => {
    try {
      for (const conversation of runDue(parts)) wake(conversation);
    } catch (error) {
      onUnusable(error);
    }
  };
  const ticking = new Cron('* * * * *', { unref: true }, tick);
  tick();
  return { stop: () => ticking.stop() };
}
