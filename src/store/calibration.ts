/** Cases whose cause was confirmed, with what was answered in them. */
import type { Database } from 'better-sqlite3';
import type { Judged } from '../dialogues/calibration.ts';
import type { SuspectId } from '../knowledge/ids.ts';
import { fullCaseReader } from './pool-records.ts';

interface Row {
  id: string;
  pool: string;
  cause: SuspectId;
}

const CONFIRMED = `SELECT consult.id, consult.pool, COALESCE(closing.cause, consult.fault) AS cause
  FROM consult LEFT JOIN visit ON visit.consult = consult.id LEFT JOIN closing ON closing.visit = visit.id
  WHERE closing.cause IS NOT NULL OR (consult.outcome = 'fixed' AND consult.fault IS NOT NULL)
  GROUP BY consult.id ORDER BY consult.opened_at`;

/** Every case of a database whose cause was confirmed, oldest first. */
export function judgedCases(database: Database): Judged[] {
  const fullCase = fullCaseReader(database);
  const rows = database.prepare<[], Row>(CONFIRMED).all();
  return rows.flatMap(({ id, pool, cause }): Judged[] => {
    const found = fullCase(pool, id);
    return found === undefined ? [] : [{ ...found, cause }];
  });
}
