/** A fault that comes back soon after it was cured: something behind it was not. */
import type { FaultId } from '../../knowledge/ids.ts';
import { deeperCauseOf } from '../../knowledge/trade.ts';
import type { PoolRecord } from '../record.ts';
import type { Text } from '../say.ts';
import { text } from '../say.ts';
import { faultName, poolName } from '../words.ts';
import type { JobFacts, JobMove } from './job-run.ts';
import type { Job } from './job.ts';

/** Sooner than this after its cure, a fault is back rather than there again. Common practice, no source. */
export const SOON_MS = 31 * 24 * 60 * 60 * 1000;

/** A cause that was confirmed: by a repair that cured it, or by the technician who was there. */
export interface Confirmed {
  fault: FaultId;
  at: number;
}

/** The causes confirmed at a pool before a time, oldest first. */
export function confirmedAt(pool: PoolRecord, before: number): Confirmed[] {
  return pool.cases
    .flatMap(({ outcome, fault, closedAt }) =>
      outcome === 'fixed' && fault !== undefined && closedAt !== undefined ? [{ fault, at: closedAt }] : [],
    )
    .filter(({ at }) => at < before)
    .sort((a, b) => a.at - b.at);
}

/** The last time this fault was confirmed before `at`, where that is less than a month ago. */
export function lately(confirmed: readonly Confirmed[], fault: FaultId, at: number): Confirmed | undefined {
  return confirmed.findLast((one) => one.fault === fault && one.at < at && at - one.at <= SOON_MS);
}

/** What most likely lies behind a fault that is back, in words; nothing where nothing in particular does. */
function deeper(fault: FaultId): Text[] {
  const cause = deeperCauseOf(fault);
  return cause === undefined
    ? []
    : [text('afterwards:repeat.deeper', { cause: text(`afterwards:deeper.${cause}`) })];
}

/** That a fault is back, for its owner or for a brief; nothing where it is not. */
export function backAgain(
  how: 'owner' | 'brief',
  pool: PoolRecord,
  fault: FaultId | undefined,
  at: number,
): Text[] {
  const before = fault && lately(confirmedAt(pool, at), fault, at);
  if (before === undefined) return [];
  const facts = { fault: faultName(before.fault), day: { day: before.at } };
  return [text(`afterwards:repeat.${how}`, facts), ...deeper(before.fault)];
}

/** What a `same-fault` job is about. */
export function sameFaultAbout(pool: string, fault: FaultId, at: number): string {
  return `${pool} ${fault} ${at}`;
}

/** Tells the staff of a fault that is back. */
export function tellSameFault({ about, company: id }: Job, facts: JobFacts): JobMove {
  const [poolId = '', name, at] = about.split(' ');
  const company = id === undefined ? undefined : facts.company(id);
  const pool = facts.pool(poolId);
  if (pool === undefined || company?.staffChat === undefined) return {};
  const confirmed = confirmedAt(pool, Number(at));
  const fault = confirmed.find((one) => one.fault === name)?.fault;
  const before = fault && lately(confirmed, fault, Number(at));
  if (before === undefined) return {};
  const day = { day: before.at };
  const words = text('afterwards:repeat.staff', {
    pool: poolName(pool),
    fault: faultName(before.fault),
    day,
  });
  const says = [{ kind: 'info' as const, id: 'same-fault', text: [words, ...deeper(before.fault)] }];
  return { sends: [{ to: { chat: company.staffChat }, locale: company.locale, says, about: pool.id }] };
}
