/** A fault that comes back soon after it was cured: something behind it was not. */
import { DAY_MS } from '../../calc/units.ts';
import type { FaultId } from '../../knowledge/ids.ts';
import { deeperCauseOf } from '../../knowledge/trade.ts';
import type { Confirmed, PoolRecord } from '../record.ts';
import type { Text } from '../say.ts';
import { info, text } from '../say.ts';
import { faultName, poolName } from '../words.ts';
import type { JobFacts, JobMove } from './job-run.ts';
import type { Job } from './job.ts';
import { toStaffChat } from './sends.ts';

/** Sooner than this after its cure, a fault is back rather than there again. Common practice, no source. */
export const SOON_MS = 31 * DAY_MS;

/** The causes confirmed at a pool before a time, oldest first. */
function confirmedAt(pool: PoolRecord, before: number): Confirmed[] {
  return pool.cases
    .flatMap(({ confirmed }) => (confirmed === undefined ? [] : [confirmed]))
    .filter(({ at }) => at < before)
    .sort((a, b) => a.at - b.at);
}

/** The last time this fault was confirmed before `at`, where that is less than a month ago. */
function lately(confirmed: readonly Confirmed[], fault: FaultId, at: number): Confirmed | undefined {
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

/** Tells the staff where the fault of a case is one that is back. */
export function tellSameFault({ about, company: id }: Job, facts: JobFacts): JobMove {
  const company = id === undefined ? undefined : facts.company(id);
  const pool = facts.poolOfCase(about);
  const now = pool?.cases.find((record) => record.id === about)?.confirmed;
  if (pool === undefined || now === undefined || company?.staffChat === undefined) return {};
  const before = lately(confirmedAt(pool, now.at), now.fault, now.at);
  if (before === undefined) return {};
  const words = { pool: poolName(pool), fault: faultName(now.fault), day: { day: before.at } };
  const says = [info('same-fault', text('afterwards:repeat.staff', words), ...deeper(now.fault))];
  return { sends: toStaffChat(company, says, pool.id) };
}
