/** What a company's report is counted from. Every row is of the company alone: its visits, and the cases of its pools since they came to it. */
import type { Database } from 'better-sqlite3';
import type {
  CauseRow,
  ClosingRow,
  EquipmentClass,
  Period,
  ReportRows,
} from '../../dialogues/company/report/rows.ts';
import { SOON_MS } from '../../dialogues/company/repeat.ts';
import type { CaseOutcome } from '../../dialogues/say.ts';
import type { FaultId, SuspectId } from '../../knowledge/ids.ts';
import { present } from '../present.ts';

interface Span {
  company: string;
  from: number;
  to: number;
}

interface ClassCells {
  cleaner: Required<EquipmentClass>['cleaner'] | null;
  filter: Required<EquipmentClass>['filter'] | null;
}

const valueOf = (key: string): string =>
  `(SELECT value FROM equipment WHERE equipment.pool = place.pool AND key = '${key}' ORDER BY equipment.id DESC LIMIT 1) AS ${key}`;
const CLASS = `${valueOf('cleaner')}, ${valueOf('filter')}`;

const CASES = `SELECT consult.id, outcome, ${CLASS},
    EXISTS (SELECT 1 FROM visit WHERE visit.consult = consult.id AND visit.state <> 'cancelled'
      AND visit.company = place.company) AS visited
  FROM company_pool AS place JOIN consult ON consult.pool = place.pool
  WHERE place.company = @company AND opened_at >= @from AND opened_at < @to AND opened_at >= place.since
  ORDER BY opened_at`;

const VISITS = `SELECT place.id, place.state = 'cancelled' AS isCancelled, COALESCE(
      (SELECT first_suspect FROM closing WHERE closing.visit = place.id), consult.fault) AS why,
    place.opened_at AS openedAt, accepted_at AS acceptedAt, ${CLASS}
  FROM visit AS place LEFT JOIN consult ON consult.id = place.consult
  WHERE place.company = @company AND place.opened_at >= @from AND place.opened_at < @to ORDER BY place.opened_at`;

const CLOSINGS = `SELECT visit, cause, first_suspect AS firstSuspect, minutes, closed_by AS person, at, ${CLASS},
    (SELECT name FROM membership WHERE membership.person = closed_by AND membership.company = place.company
     ORDER BY name = '' LIMIT 1) AS name
  FROM closing JOIN visit AS place ON place.id = closing.visit
  WHERE place.company = @company AND at >= @from AND at < @to ORDER BY at`;

const CAUSES = `SELECT place.pool, cause AS fault, at, 'visit' AS "by", closed_by AS technician, ${CLASS}
  FROM closing JOIN visit AS place ON place.id = closing.visit
  WHERE place.company = @company AND cause <> 'something-else' AND at >= @from AND at < @to
  UNION ALL
  SELECT place.pool, fault, closed_at AS at, 'owner' AS "by", NULL AS technician, ${CLASS}
  FROM company_pool AS place JOIN consult ON consult.pool = place.pool
  WHERE place.company = @company AND outcome = 'fixed' AND fault IS NOT NULL AND closed_at >= @from AND closed_at < @to
    AND closed_at >= place.since
    AND NOT EXISTS (SELECT 1 FROM visit JOIN closing ON closing.visit = visit.id WHERE visit.consult = consult.id)
  ORDER BY at`;

type CaseCells = ClassCells & { id: string; outcome: CaseOutcome | null; visited: number };
type VisitCells = ClassCells & {
  id: string;
  isCancelled: number;
  why: SuspectId | null;
  openedAt: number;
  acceptedAt: number | null;
};
type ClosingCells = ClassCells & {
  visit: string;
  cause: SuspectId;
  firstSuspect: SuspectId | null;
  minutes: number | null;
  person: string | null;
  name: string | null;
  at: number;
};
type CauseCells = ClassCells &
  Pick<CauseRow, 'by'> & {
    pool: string;
    fault: FaultId;
    at: number;
    technician: string | null;
  };

function closingRow({ person, name, ...row }: ClosingCells): ClosingRow {
  const closing = present(row);
  return person === null ? closing : { ...closing, technician: { person, name: name ?? '' } };
}

/** Reads what a company's report on a stretch of time is counted from. */
export function reportReader(database: Database): (company: string, period: Period) => ReportRows {
  const cases = database.prepare<[Span], CaseCells>(CASES);
  const visits = database.prepare<[Span], VisitCells>(VISITS);
  const closings = database.prepare<[Span], ClosingCells>(CLOSINGS);
  const causes = database.prepare<[Span], CauseCells>(CAUSES);
  return (company, { from, to }) => {
    const span = { company, from, to };
    return {
      cases: cases.all(span).map((row) => present({ ...row, visited: row.visited === 1 })),
      visits: visits.all(span).map((row) => present({ ...row, isCancelled: row.isCancelled === 1 })),
      closings: closings.all(span).map(closingRow),
      // What came before the period tells which of its causes were back.
      causes: causes.all({ ...span, from: from - SOON_MS }).map((row) => present(row)),
    };
  };
}
