/** What follows later from what a turn changed: the question whether it still runs, the next filter date, faults back. */
import type { Facts, PoolRecord, RecordChange } from '../record.ts';
import { planFilterDate } from './filter-date.ts';
import type { PlanJob } from './job.ts';
import { confirmedAt, lately, sameFaultAbout } from './repeat.ts';
import { ASKED_AFTER_MS } from './still-running.ts';

type Closed = Extract<RecordChange, { do: 'close-case' }>;

/** For whom a job about a pool is done: its company where it has one, else the person whose pool it is. */
function onBehalf(pool: PoolRecord, person: string): Pick<PlanJob, 'company' | 'person'> {
  return pool.company === undefined ? { person } : { company: pool.company.id };
}

function afterCure({ case: id, outcome, fault }: Closed, pool: PoolRecord, facts: Facts): PlanJob[] {
  if (outcome !== 'fixed') return [];
  const asks: PlanJob = {
    do: 'plan-job',
    kind: 'still-running',
    about: id,
    dueAt: facts.now + ASKED_AFTER_MS,
    ...onBehalf(pool, facts.person),
  };
  if (fault === undefined || pool.company === undefined) return [asks];
  if (lately(confirmedAt(pool, facts.now), fault, facts.now) === undefined) return [asks];
  const about = sameFaultAbout(pool.id, fault, facts.now);
  const company = pool.company.id;
  return [asks, { do: 'plan-job', kind: 'same-fault', about, company, dueAt: facts.now }];
}

/** The jobs that the changes of a turn give rise to. `facts` are those after the changes. */
export function plannedAfter(changes: readonly RecordChange[], facts: Facts): PlanJob[] {
  const poolOf = (id: string): PoolRecord | undefined => facts.pools.find((pool) => pool.id === id);
  const cured = changes.flatMap((change) => {
    const pool = change.do === 'close-case' ? poolOf(change.pool) : undefined;
    return change.do === 'close-case' && pool !== undefined ? afterCure(change, pool, facts) : [];
  });
  const read = new Set(
    changes.flatMap((change) =>
      change.do === 'note-reading' && change.reading.quantity === 'filter-pressure' ? [change.pool] : [],
    ),
  );
  const dates = [...read].flatMap((id) => {
    const pool = poolOf(id);
    return pool === undefined ? [] : planFilterDate(pool, onBehalf(pool, facts.person), facts.now);
  });
  return [...cured, ...dates];
}
