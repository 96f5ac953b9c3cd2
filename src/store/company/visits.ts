/** Visits: what is read of them, and what a turn writes. */
import type { Database } from 'better-sqlite3';
import type { Permit } from '../../dialogues/company/permit.ts';
import type { VisitBooks } from '../../dialogues/company/visits/books.ts';
import type { VisitState } from '../../dialogues/company/visits/visit.ts';
import type { Visit } from '../../dialogues/company/visits/visit.ts';
import type { FullCase } from '../../dialogues/record.ts';
import { peopleOf } from '../people.ts';
import type { OwnedCase } from '../pool-records.ts';
import { fullCaseReader } from '../pool-records.ts';
import { present } from '../present.ts';

interface VisitRow {
  id: string;
  company: string;
  pool: string;
  consult: string | null;
  state: VisitState;
  technician: string | null;
  suits: string;
  gate_notes: string;
  scheduled_for: string | null;
  day_order: number | null;
  opened_at: number;
  accepted_at: number | null;
  ended_at: number | null;
  pool_name: string;
  reference: string;
  address: string;
  owner: string | null;
  technician_name: string | null;
}

function visitOf(row: VisitRow): Visit {
  return {
    id: row.id,
    company: row.company,
    pool: row.pool,
    poolName: row.pool_name,
    reference: row.reference,
    address: row.address,
    state: row.state,
    technicianName: row.technician_name ?? '',
    suits: row.suits,
    gateNotes: row.gate_notes,
    openedAt: row.opened_at,
    ...present({
      owner: row.owner,
      consult: row.consult,
      technician: row.technician,
      scheduledFor: row.scheduled_for,
      dayOrder: row.day_order,
      acceptedAt: row.accepted_at,
      endedAt: row.ended_at,
    }),
  };
}

/** Visits of pools that the company still looks after. */
const VISIT = `SELECT visit.*, pool.name AS pool_name, pool.person AS owner, reference, address,
    (SELECT MAX(name) FROM membership WHERE person = visit.technician AND company = visit.company) AS technician_name
  FROM visit JOIN pool ON pool.id = visit.pool
  JOIN company_pool ON company_pool.pool = visit.pool AND company_pool.company = visit.company
  WHERE visit.company = ?`;
const OPEN = "visit.state NOT IN ('closed', 'cancelled')";

/** Reads one visit of a company by its id. */
export function visitReader(database: Database): (company: string, visit: string) => Visit | undefined {
  const one = database.prepare<[string, string], VisitRow>(`${VISIT} AND visit.id = ?`);
  return (company, visit) => {
    const row = one.get(company, visit);
    return row && visitOf(row);
  };
}

type Lists = Pick<VisitBooks<FullCase>, 'open' | 'openCount' | 'openOf'> & {
  ownDay(permit: Permit, person: string, day: string): Visit[];
};

function listsOf(database: Database): Lists {
  const open = database.prepare<[string, number], VisitRow>(
    `${VISIT} AND ${OPEN} ORDER BY opened_at, visit.id LIMIT ?`,
  );
  const count = database.prepare<[string], { n: number }>(`SELECT COUNT(*) AS n FROM (${VISIT} AND ${OPEN})`);
  const ofPool = database.prepare<[string, string], VisitRow>(
    `${VISIT} AND visit.pool = ? AND ${OPEN} ORDER BY opened_at DESC LIMIT 1`,
  );
  const ownDay = database.prepare<[string, string, string], VisitRow>(
    `${VISIT} AND technician = ? AND ${OPEN} AND (scheduled_for IS NULL OR scheduled_for <= ?)
     ORDER BY scheduled_for IS NULL, scheduled_for, day_order, opened_at`,
  );
  return {
    open: ({ company }, limit) => open.all(company.id, limit).map(visitOf),
    openCount: ({ company }) => count.get(company.id)?.n ?? 0,
    openOf: ({ company }, pool) => {
      const row = ofPool.get(company.id, pool);
      return row && visitOf(row);
    },
    ownDay: ({ company }, person, day) => ownDay.all(company.id, person, day).map(visitOf),
  };
}

/** Reads a case with its pool and all its answers, where the company looks after the pool. */
function caseReader(
  database: Database,
): (company: string, pool: string, oneCase: string) => OwnedCase | undefined {
  const fullCase = fullCaseReader(database);
  return (company, pool, oneCase) => {
    const found = fullCase(pool, oneCase);
    return found?.pool.company?.id === company ? found : undefined;
  };
}

/** The books of visits for one person; an owner sees those of their own pools alone. */
export function visitBooksReader(database: Database): (person: string) => VisitBooks<FullCase> {
  const byId = visitReader(database);
  const lists = listsOf(database);
  const caseOf = caseReader(database);
  const people = peopleOf(database);
  const code = database.prepare<[string, string, string], { code: string }>(
    `SELECT code FROM gate_code JOIN visit ON visit.id = gate_code.visit
     WHERE visit.id = ? AND visit.company = ? AND visit.technician = ? AND ${OPEN}`,
  );
  const office = database.prepare<[string], { person: string }>(
    `SELECT DISTINCT person FROM membership WHERE company = ? AND role IN ('dispatcher', 'administrator')
     AND left_at IS NULL ORDER BY since, rowid`,
  );
  return (person) => {
    const isSeen = ({ role }: Permit, owner: string | undefined): boolean =>
      role !== 'owner' || owner === person;
    const seen = (permit: Permit, visit: Visit | undefined): Visit | undefined =>
      visit !== undefined && isSeen(permit, visit.owner) ? visit : undefined;
    return {
      ...lists,
      byId: (permit, id) => seen(permit, byId(permit.company.id, id)),
      openOf: (permit, pool) => seen(permit, lists.openOf(permit, pool)),
      ownDay: (permit, day) => lists.ownDay(permit, person, day),
      gateCode: ({ company, role }, visit) =>
        role === 'owner' ? undefined : code.get(visit, company.id, person)?.code,
      caseOf: (permit, pool, oneCase) => {
        const found = caseOf(permit.company.id, pool, oneCase);
        return found !== undefined && isSeen(permit, found.owner) ? found : undefined;
      },
      reachableOffice: ({ company }) =>
        office
          .all(company.id)
          .map((row) => row.person)
          .filter((one) => people.addressOf({ person: one }) !== undefined),
    };
  };
}
