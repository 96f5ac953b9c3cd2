/** Reminding of a filter's next clean, by the pool's own trend. */
import { DAY_MS } from '../../calc/units.ts';
import type { PoolRecord } from '../record.ts';
import type { Text } from '../say.ts';
import { text } from '../say.ts';
import { nextFilterClean } from '../trend.ts';
import { poolName } from '../words.ts';
import type { JobFacts, JobMove } from './job-run.ts';
import type { Job, PlanJob } from './job.ts';

/** Time to get to it. */
const AHEAD_MS = 3 * DAY_MS;
/** A filter that is due already is mentioned once those at the pool have had time to clean it. */
const GRACE_MS = 2 * DAY_MS;
/** A forecast that moves by less is the same. */
const SAME_MS = DAY_MS;

type Next = ReturnType<typeof nextFilterClean>;

/** When to remind of a clean; undefined where the trend gives no date. */
function remindAt(next: Next, now: number): number | undefined {
  if (next?.kind === 'due') return now + GRACE_MS;
  if (next?.kind !== 'forecast') return undefined;
  return Math.max(now + DAY_MS, next.day * DAY_MS - AHEAD_MS);
}

/** The reminder that fits a pool's present trend; it takes the place of the one before. */
export function planFilterDate(
  pool: PoolRecord,
  behalf: Pick<PlanJob, 'person' | 'company'>,
  now: number,
): PlanJob[] {
  const dueAt = remindAt(nextFilterClean(pool), now);
  if (dueAt === undefined) return [];
  return [{ do: 'plan-job', kind: 'filter-clean', about: pool.id, ...behalf, dueAt, instead: true }];
}

function when(pool: PoolRecord, next: NonNullable<Next>): Text | undefined {
  const facts = { pool: poolName(pool) };
  if (next.kind === 'due')
    return text('afterwards:filter.due', {
      ...facts,
      limit: { quantity: 'filter-pressure', value: next.limitPa },
    });
  if (next.kind !== 'forecast') return undefined;
  const earliest = { day: next.earliestDay * DAY_MS };
  if (!Number.isFinite(next.latestDay))
    return text('afterwards:filter.open-end', { ...facts, day: earliest });
  const range = { earliest, latest: { day: next.latestDay * DAY_MS } };
  return text('afterwards:filter.soon', { ...facts, day: { day: next.day * DAY_MS }, ...range });
}

/** Reminds the owner: the caution first, as opening a filter can hurt. Later where the date has moved away since. */
export function remindOfFilter(job: Job, facts: JobFacts): JobMove {
  const pool = facts.pool(job.about);
  if (pool?.owner === undefined) return {};
  const next = nextFilterClean(pool);
  const words = next && when(pool, next);
  if (words === undefined) return {};
  if (next?.kind === 'forecast' && next.day * DAY_MS - AHEAD_MS > facts.now + SAME_MS)
    return { again: next.day * DAY_MS - AHEAD_MS };
  const caution = text('cautions:filter-pressure.text');
  const says = [
    { kind: 'info' as const, id: 'filter-clean', text: [words, caution, text('afterwards:filter.how')] },
  ];
  const reminder = { kind: 'filter-clean', pool: pool.id } as const;
  return { sends: [{ to: { person: pool.owner }, says, about: pool.id, reminder }] };
}
