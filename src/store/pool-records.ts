/** Reading a person's pools as the dialogues see them. */
import type { Database } from 'better-sqlite3';
import type { CaseRecord, FullCase, PoolRecord, Reading } from '../dialogues/record.ts';
import { isFigure } from '../dialogues/record.ts';
import type { CaseOutcome } from '../dialogues/say.ts';
import type { CaseEvent } from '../engine/case.ts';
import type { CheckId, ComplaintId, FaultId, Quantity, SuspectId } from '../knowledge/ids.ts';
import { SOMETHING_ELSE } from '../knowledge/ids.ts';
import type { Equipment, Figures, Role } from '../knowledge/schema.ts';

interface PoolRow {
  id: string;
  person: string | null;
  name: string;
  company: string | null;
  company_name: string;
  phone: string;
  hours: string;
  hand_off_minutes: number;
}
interface ConsultRow {
  id: string;
  complaint: ComplaintId;
  role: Role;
  opened_at: number;
  closed_at: number | null;
  outcome: CaseOutcome | null;
  fault: FaultId | null;
  cause: SuspectId | null;
  caused_at: number | null;
}
interface ReadingRow {
  quantity: Quantity;
  value: number;
  said: string;
  clean: number;
  at: number;
}

const POOL = `SELECT pool.id, pool.person, pool.name, company.id AS company, company.name AS company_name, phone, hours, hand_off_minutes
  FROM pool LEFT JOIN company_pool ON company_pool.pool = pool.id LEFT JOIN company ON company.id = company_pool.company`;
const OF_CASE = `closing JOIN visit ON visit.id = closing.visit
  WHERE visit.consult = consult.id ORDER BY closing.at DESC LIMIT 1`;
const CLOSING = `SELECT cause FROM ${OF_CASE}`;
const CLOSING_AT = `SELECT closing.at FROM ${OF_CASE}`;
/** A company's pool is open to its staff while they talk about it. */
const OPEN_TO_STAFF = `pool.id = ? AND company_pool.company IN (
  SELECT company FROM membership WHERE person = ? AND role <> 'owner' AND left_at IS NULL)`;

function companyOf(row: PoolRow): Pick<PoolRecord, 'company'> {
  if (row.company === null) return {};
  const { company: id, company_name: name, phone, hours, hand_off_minutes: handOffMinutes } = row;
  return { company: { id, name, phone, hours, handOffMinutes } };
}

/**
 * The statements that read a person's pools, prepared once a database: their own, and after them the one they talk
 * about as staff of its company.
 */
export function poolReader(database: Database): (person: string, current?: string) => PoolRecord[] {
  const own = database.prepare<[string], PoolRow>(
    `${POOL} WHERE pool.person = ? ORDER BY pool.created_at, pool.rowid`,
  );
  const asStaff = database.prepare<[string, string, string], PoolRow>(
    `${POOL} WHERE ${OPEN_TO_STAFF} AND pool.person IS NOT ?`,
  );
  const recordOf = recordReader(database);
  return (person, current = '') =>
    [...own.all(person), ...asStaff.all(current, person, person)].map(recordOf);
}

/** A pool by its id, and whose it is; undefined where there is none. */
export function poolByIdReader(
  database: Database,
): (id: string) => { record: PoolRecord; owner?: string } | undefined {
  const one = database.prepare<[string], PoolRow>(`${POOL} WHERE pool.id = ?`);
  const recordOf = recordReader(database);
  return (id) => {
    const row = one.get(id);
    if (row === undefined) return undefined;
    return { record: recordOf(row), ...(row.person === null ? {} : { owner: row.person }) };
  };
}

/** A case with all its answers, its pool, and whose pool it is. */
export type OwnedCase = FullCase & { owner?: string };

/** Reads a case of a pool with all its answers, closed or open; undefined where there is none. */
export function fullCaseReader(database: Database): (pool: string, oneCase: string) => OwnedCase | undefined {
  const poolById = poolByIdReader(database);
  const eventsOf = eventsReader(database);
  return (poolId, oneCase) => {
    const found = poolById(poolId);
    const known = found?.record.cases.find(({ id }) => id === oneCase);
    if (found === undefined || known === undefined) return undefined;
    const { record: pool, ...owned } = found;
    return { pool, record: { ...known, events: eventsOf(oneCase) }, ...owned };
  };
}

/** Reads the answers of a case that were not taken back, in their order. */
function eventsReader(database: Database): (oneCase: string) => CaseEvent[] {
  const events = database.prepare<[string], { event: string }>(
    'SELECT event FROM consult_event WHERE consult = ? AND withdrawn_at IS NULL ORDER BY id',
  );
  return (oneCase) => events.all(oneCase).map(({ event }) => JSON.parse(event) as CaseEvent);
}

/** The cause as it turned out: what a technician found comes before what an owner cured. */
function confirmedOf({
  cause,
  caused_at,
  outcome,
  fault,
  closed_at,
}: ConsultRow): Pick<CaseRecord, 'confirmed'> {
  if (cause !== null && caused_at !== null)
    return cause === SOMETHING_ELSE ? {} : { confirmed: { fault: cause, at: caused_at } };
  if (outcome !== 'fixed' || fault === null || closed_at === null) return {};
  return { confirmed: { fault, at: closed_at } };
}

/** Far more than the table's shares are worth; beyond it nothing moves any more. */
const CONFIRMED_READ = 500;

type Known = Pick<PoolRecord, 'equipment' | 'figures'>;

/** Adds what the pool's company confirmed at pools of its class. */
function confirmedReader(
  database: Database,
): (pool: Pick<PoolRecord, 'company'>, known: Known) => Pick<PoolRecord, 'company'> & Known {
  const confirmed = database.prepare<[string, string | null, string | null], { fault: FaultId; at: number }>(
    `SELECT fault, at FROM confirmed_cause WHERE company = ? AND cleaner IS ? AND filter IS ?
     ORDER BY at DESC LIMIT ${CONFIRMED_READ}`,
  );
  return ({ company }, known) => {
    if (company === undefined) return known;
    const { cleaner = null, filter = null } = known.equipment;
    return { company: { ...company, confirmed: confirmed.all(company.id, cleaner, filter) }, ...known };
  };
}

/** The statements that read all that hangs on a pool. */
function recordReader(database: Database): (row: PoolRow) => PoolRecord {
  const equipment = database.prepare<[string], { key: string; value: string | null }>(
    'SELECT key, value FROM equipment WHERE pool = ? ORDER BY id',
  );
  const missing = database.prepare<[string], { instrument: CheckId }>(
    'SELECT instrument FROM missing_instrument WHERE pool = ? ORDER BY at',
  );
  const readings = database.prepare<[string], ReadingRow>(
    'SELECT quantity, value, said, clean, at FROM reading WHERE pool = ? ORDER BY at, id',
  );
  const consults = database.prepare<[string], ConsultRow>(
    `SELECT *, (${CLOSING}) AS cause, (${CLOSING_AT}) AS caused_at FROM consult WHERE pool = ? ORDER BY opened_at, rowid`,
  );
  const eventsOf = eventsReader(database);
  const photos = database.prepare<[string], { step: string; at: number }>(
    'SELECT step, at FROM photo WHERE consult = ? AND step IS NOT NULL ORDER BY id',
  );

  const caseRecord = (row: ConsultRow): CaseRecord => ({
    id: row.id,
    complaint: row.complaint,
    role: row.role,
    openedAt: row.opened_at,
    ...(row.closed_at === null ? {} : { closedAt: row.closed_at }),
    ...(row.outcome === null ? {} : { outcome: row.outcome }),
    ...(row.fault === null ? {} : { fault: row.fault }),
    ...confirmedOf(row),
    ...(row.closed_at === null ? { photos: photos.all(row.id) } : {}),
    // A closed case is history: nothing asks for its answers in a turn.
    events: row.closed_at === null ? eventsOf(row.id) : [],
  });
  const known = (pool: string): { equipment: Equipment; figures: Figures } => {
    const latest = new Map(equipment.all(pool).map(({ key, value }) => [key, value]));
    const entries = [...latest].filter(([, value]) => value !== null);
    return {
      equipment: Object.fromEntries(entries.filter(([key]) => !isFigure(key))),
      figures: Object.fromEntries(
        entries.filter(([key]) => isFigure(key)).map(([key, value]) => [key, Number(value)]),
      ),
    };
  };
  const withConfirmed = confirmedReader(database);
  return (row) => ({
    id: row.id,
    name: row.name,
    ...withConfirmed(companyOf(row), known(row.id)),
    missing: missing.all(row.id).map(({ instrument }) => instrument),
    readings: readings.all(row.id).map((one): Reading => ({ ...one, clean: one.clean === 1 })),
    cases: consults.all(row.id).map(caseRecord),
  });
}
