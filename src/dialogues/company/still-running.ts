/** Two days after a cure: whether it still runs, and a new case with all that is known where it does not. */
import { DAY_MS } from '../../calc/units.ts';
import { complained } from '../complaint.ts';
import { resumed } from '../consult.ts';
import type { Context, Move } from '../conversation.ts';
import type { CaseRecord, FullCase, PoolRecord } from '../record.ts';
import type { Say } from '../say.ts';
import { actOption, info, text } from '../say.ts';
import { faultName, poolName } from '../words.ts';
import type { JobFacts, JobMove } from './job-run.ts';
import type { Job } from './job.ts';

/** How long after a cure it is asked about. */
export const ASKED_AFTER_MS = 2 * DAY_MS;

function ask(pool: PoolRecord, { id, outcome, fault }: CaseRecord): Say {
  const cured = outcome === 'fixed' && fault !== undefined;
  const facts = { pool: poolName(pool), fault: fault === undefined ? '' : faultName(fault) };
  return {
    kind: 'info',
    id: 'still-running',
    text: [text(cured ? 'afterwards:running.ask' : 'afterwards:running.ask-visit', facts)],
    options: [
      actOption('runs-well', id, text('afterwards:running.yes')),
      actOption('runs-ill', id, text('afterwards:running.no')),
    ],
    stands: true,
  };
}

/** Asks the owner; not where the pool has had another case since, which tells enough. */
export function askStillRunning(job: Job, facts: JobFacts): JobMove {
  const pool = facts.poolOfCase(job.about);
  const record = pool?.cases.find(({ id }) => id === job.about);
  if (pool?.owner === undefined || record === undefined) return {};
  if (pool.cases.some(({ openedAt }) => openedAt > job.dueAt - ASKED_AFTER_MS)) return {};
  const reminder = { kind: 'still-running', pool: pool.id } as const;
  return { sends: [{ to: { person: pool.owner }, says: [ask(pool, record)], about: pool.id, reminder }] };
}

/** It runs. */
export function runsWell(_: string, { conversation }: Context): Move {
  const says = [info('runs-well', text('afterwards:running.glad'))];
  return { flow: conversation.flow, aside: true, says };
}

/** The case that the answer was about, with its pool, where both are still the person's. */
function found(id: string, { facts }: Context): FullCase | undefined {
  for (const pool of facts.pools) {
    const record = pool.cases.find((one) => one.id === id);
    if (record !== undefined) return { pool, record };
  }
  return undefined;
}

/** It does not run: a new case of the same complaint, or the one that is open already. */
export function runsIll(about: string, context: Context): Move {
  const { conversation } = context;
  const asked = found(about, context);
  if (asked === undefined)
    return { flow: conversation.flow, says: [info('pool-gone', text('afterwards:running.gone'))] };
  const { pool, record } = asked;
  const there: Context = { ...context, conversation: { ...conversation, pool: pool.id } };
  const open = pool.cases.findLast(({ closedAt }) => closedAt === undefined);
  const move =
    open === undefined ? complained(record.complaint, there) : resumed({ pool, record: open }, there);
  const again = info('runs-ill', text('afterwards:running.again', { pool: poolName(pool) }));
  return { ...move, set: { ...move.set, pool: pool.id }, says: [again, ...(move.says ?? [])] };
}
