/** What is known of a person and their pools, and the changes that a turn makes to it. */
import { HOUR_MS } from '../calc/units.ts';
import type { CaseEvent, Gauges } from '../engine/case.ts';
import type { CheckId, ComplaintId, FaultId } from '../knowledge/ids.ts';
import type { Equipment, EquipmentKey, FigureKey, Figures, Role } from '../knowledge/schema.ts';
import { FIGURE_KEYS } from '../knowledge/schema.ts';
import type { CompanyChange } from './company/changes.ts';
import { isCompanyChange, withSetting } from './company/changes.ts';
import type { Membership, PoolCompany } from './company/company.ts';
import type { Office } from './company/office.ts';
import type { Locale } from './event.ts';
import type { Reading } from './reading.ts';
import type { CaseOutcome } from './say.ts';

export type { Reading } from './reading.ts';

/** A cause that was confirmed. */
export interface Confirmed {
  fault: FaultId;
  at: number;
}

export interface CaseRecord {
  id: string;
  complaint: ComplaintId;
  role: Role;
  openedAt: number;
  closedAt?: number;
  outcome?: CaseOutcome;
  /** What it came to: the cause that was cured, or what was suspected where somebody had to come. */
  fault?: FaultId;
  /** The cause as it turned out: by the repair that cured it, or by the technician who was there. */
  confirmed?: Confirmed;
  /** Photos sent, each with the step it answers. */
  photos?: readonly { step: string; at: number }[];
  /** Events that stand; those a person took back are kept by the store and left out here. */
  events: readonly CaseEvent[];
}

export interface PoolRecord {
  id: string;
  /** The company that looks after it, if one does. */
  company?: PoolCompany;
  name: string;
  equipment: Equipment;
  figures: Figures;
  /** Instruments that the person said are not there. */
  missing: readonly CheckId[];
  readings: readonly Reading[];
  cases: readonly CaseRecord[];
}

/** A case with its pool, and all its answers although it is closed. */
export interface FullCase {
  pool: PoolRecord;
  record: CaseRecord;
}

/** Everything a turn needs, read once. */
export interface Facts {
  /** Milliseconds since 1970. */
  now: number;
  /** An id not used before, for the pool or case that this turn may open. */
  freshId: string;
  pools: readonly PoolRecord[];
  /** Id of the person who speaks. */
  person: string;
  /** Where everybody present reads along: the group, or the person's own conversation. */
  chat: string;
  /** What the person is to companies now. */
  memberships: readonly Membership[];
  office: Office<FullCase>;
  /** A link not given to anybody before. */
  freshLink: FreshLink;
}

/** A link to the bot that carries a secret. */
export interface FreshLink {
  /** What the bot hears when the link is opened, at least 128 bit of it random. */
  payload: string;
  /** The link as a person opens it, or the command to send where the bot has no address. */
  address: string;
}

export type RecordChange =
  | { do: 'set-person'; locale?: Locale; role?: Role; spoken?: boolean; timeZone?: string }
  | { do: 'create-pool'; pool: string; name: string }
  | { do: 'equip'; pool: string; key: EquipmentKey | FigureKey; value: string | null }
  | { do: 'note-missing'; pool: string; instrument: CheckId }
  | { do: 'note-reading'; pool: string; reading: Reading }
  | { do: 'open-case'; pool: string; case: string; complaint: ComplaintId; role: Role }
  | { do: 'add-event'; pool: string; case: string; event: CaseEvent }
  | { do: 'withdraw-events'; pool: string; case: string; keep: number }
  | { do: 'close-case'; pool: string; case: string; outcome: CaseOutcome; fault?: FaultId }
  | { do: 'erase-person' }
  | CompanyChange;

type PoolChange = Exclude<Extract<RecordChange, { pool: string }>, CompanyChange>;

/** Whether a part of the pool's profile is a number. */
export function isFigure(key: string): key is FigureKey {
  return FIGURE_KEYS.some((figure) => figure === key);
}

function withEntry<T extends object>(entries: T, key: string, value: string | number | null): T {
  const others = Object.entries(entries).filter(([own]) => own !== key);
  return Object.fromEntries(value === null ? others : [...others, [key, value]]) as T;
}

function equipped(pool: PoolRecord, key: EquipmentKey | FigureKey, value: string | null): PoolRecord {
  if (isFigure(key))
    return { ...pool, figures: withEntry(pool.figures, key, value === null ? null : Number(value)) };
  return { ...pool, equipment: withEntry(pool.equipment, key, value) };
}

function caseChanged(pool: PoolRecord, id: string, change: (record: CaseRecord) => CaseRecord): PoolRecord {
  return { ...pool, cases: pool.cases.map((record) => (record.id === id ? change(record) : record)) };
}

function confirmedBy(
  { outcome, fault }: Extract<PoolChange, { do: 'close-case' }>,
  now: number,
): Pick<CaseRecord, 'confirmed'> {
  return outcome === 'fixed' && fault !== undefined ? { confirmed: { fault, at: now } } : {};
}

function poolChanged(pool: PoolRecord, change: PoolChange, now: number): PoolRecord {
  switch (change.do) {
    case 'create-pool':
      return pool;
    case 'equip':
      return equipped(pool, change.key, change.value);
    case 'note-missing':
      return { ...pool, missing: [...new Set([...pool.missing, change.instrument])] };
    case 'note-reading':
      return { ...pool, readings: [...pool.readings, change.reading] };
    case 'open-case': {
      const opened = {
        id: change.case,
        complaint: change.complaint,
        role: change.role,
        openedAt: now,
        events: [],
      };
      return { ...pool, cases: [...pool.cases, opened] };
    }
    case 'add-event':
      return caseChanged(pool, change.case, (record) => ({
        ...record,
        events: [...record.events, change.event],
      }));
    case 'withdraw-events':
      return caseChanged(pool, change.case, (record) => ({
        ...record,
        events: record.events.slice(0, change.keep),
      }));
    case 'close-case':
      return caseChanged(pool, change.case, (record) => ({
        ...record,
        closedAt: now,
        outcome: change.outcome,
        ...(change.fault === undefined ? {} : { fault: change.fault }),
        ...confirmedBy(change, now),
      }));
  }
}

const NEW_POOL = { equipment: {}, figures: {}, missing: [], readings: [], cases: [] };

/** The facts after a change of the person's companies. */
function withCompanyChange(facts: Facts, change: CompanyChange): Facts {
  if (change.do === 'set-company') {
    const memberships = facts.memberships.map((one) =>
      one.company.id === change.company ? { ...one, company: withSetting(one.company, change.setting) } : one,
    );
    return { ...facts, memberships };
  }
  if (change.do !== 'leave-company') return facts;
  const pools = facts.pools.map((pool): PoolRecord => {
    const { company, ...own } = pool;
    return company?.id === change.company ? own : pool;
  });
  const memberships = facts.memberships.filter(({ company }) => company.id !== change.company);
  return { ...facts, pools, memberships };
}

/** The facts after one change. */
export function withChange(facts: Facts, change: RecordChange): Facts {
  if (change.do === 'erase-person') return { ...facts, pools: [] };
  if (change.do === 'set-person') return facts;
  if (isCompanyChange(change)) return withCompanyChange(facts, change);
  if (change.do === 'create-pool')
    return { ...facts, pools: [...facts.pools, { ...NEW_POOL, id: change.pool, name: change.name }] };
  const pools = facts.pools.map((pool) =>
    pool.id === change.pool ? poolChanged(pool, change, facts.now) : pool,
  );
  return { ...facts, pools };
}

/** The latest clean reading of each gauge: what the pool's readings are judged against. */
export function cleanBaseline(pool: PoolRecord): Gauges {
  return Object.fromEntries(
    pool.readings.filter((reading) => reading.clean).map((reading) => [reading.quantity, reading.value]),
  );
}

/** How often each fault was confirmed at this pool. */
export function confirmedFaults(pool: PoolRecord): Partial<Record<FaultId, number>> {
  const counts: Partial<Record<FaultId, number>> = {};
  for (const { confirmed } of pool.cases)
    if (confirmed !== undefined) counts[confirmed.fault] = (counts[confirmed.fault] ?? 0) + 1;
  return counts;
}

/** Clean readings of one occasion are taken within this time of each other. */
const ONE_OCCASION_MS = 12 * HOUR_MS;

/** The clean readings of a pool, a set for each occasion, oldest first. */
export function cleanSets(pool: PoolRecord): Gauges[] {
  const sets: { at: number; gauges: Gauges }[] = [];
  for (const { quantity, value, clean, at } of pool.readings) {
    if (!clean) continue;
    const last = sets.at(-1);
    if (last !== undefined && at - last.at < ONE_OCCASION_MS) last.gauges[quantity] = value;
    else sets.push({ at, gauges: { [quantity]: value } });
  }
  return sets.map(({ gauges }) => gauges);
}
