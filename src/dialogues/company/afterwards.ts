/** What follows later from what a turn changed: the question whether it still runs, the next filter date, faults back. */
import type { Facts, PoolRecord, RecordChange } from '../record.ts';
import { planFilterDate } from './filter-date.ts';
import type { PlanJob } from './job.ts';
import { ASKED_AFTER_MS } from './still-running.ts';

/** For whom a job about a pool is done: its company where it has one, else the person whose pool it is. */
function onBehalf(pool: PoolRecord, person: string): Pick<PlanJob, 'company' | 'person'> {
  return pool.company === undefined ? { person } : { company: pool.company.id };
}

/** What is planned where a case was cured. */
function afterCure(oneCase: string, behalf: Pick<PlanJob, 'company' | 'person'>, now: number): PlanJob[] {
  const plan = { do: 'plan-job', about: oneCase, ...behalf } as const;
  const asks: PlanJob = { ...plan, kind: 'still-running', dueAt: now + ASKED_AFTER_MS };
  return behalf.company === undefined ? [asks] : [asks, { ...plan, kind: 'same-fault', dueAt: now }];
}

/** What is planned where a visit was closed; whether it still runs is asked only where it was repaired. */
function afterVisit(
  { company, case: about, closing }: Extract<RecordChange, { do: 'note-closing' }>,
  now: number,
): PlanJob[] {
  if (about === undefined) return [];
  const plan = { do: 'plan-job', about, company } as const;
  const asks: PlanJob = { ...plan, kind: 'still-running', dueAt: now + ASKED_AFTER_MS };
  return [...(closing.isRepaired ? [asks] : []), { ...plan, kind: 'same-fault', dueAt: now }];
}

/** The jobs that the changes of a turn give rise to. `facts` are those after the changes. */
export function plannedAfter(changes: readonly RecordChange[], facts: Facts): PlanJob[] {
  const poolOf = (id: string): PoolRecord | undefined => facts.pools.find((pool) => pool.id === id);
  const cured = changes.flatMap((change) => {
    if (change.do !== 'close-case' || change.outcome !== 'fixed') return [];
    const pool = poolOf(change.pool);
    return pool === undefined ? [] : afterCure(change.case, onBehalf(pool, facts.person), facts.now);
  });
  const visited = changes.flatMap((change) =>
    change.do === 'note-closing' ? afterVisit(change, facts.now) : [],
  );
  const read = new Set(
    changes.flatMap((change) =>
      change.do === 'note-reading' && change.reading.quantity === 'filter-pressure' ? [change.pool] : [],
    ),
  );
  const dates = [...read].flatMap((id) => {
    const pool = poolOf(id);
    return pool === undefined ? [] : planFilterDate(pool, onBehalf(pool, facts.person), facts.now);
  });
  return [...cured, ...visited, ...dates];
}
