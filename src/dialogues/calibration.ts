/** How well the beliefs at the end of cases fit what turned out to be the cause. */
import type { ReliabilityRow } from '../calc/scoring.ts';
import { brierScore, logLoss, reliabilityTable } from '../calc/scoring.ts';
import { suspectsOf } from '../engine/belief.ts';
import type { SuspectId } from '../knowledge/ids.ts';
import { caseOf } from './case-view.ts';
import type { CaseRecord, FullCase, PoolRecord } from './record.ts';

/** A case whose cause was confirmed, with all its answers, and its pool as it was when the case was opened. */
export interface Judged extends FullCase {
  cause: SuspectId;
}

/** Cases that it takes before the figures say anything. Invented: the share right is then known to about ±13 %. */
export const FEWEST_CASES = 50;
const CLASSES = 10;
/** A belief of nothing at all would make the loss infinite. */
const LEAST = 1e-9;

export interface Calibration {
  cases: number;
  /** Cases in which the first suspect was the cause. */
  right: number;
  /** Mean over the cases of the squared differences between all beliefs and what was: 0 to 2. Brier 1950. */
  brier: number;
  /** Mean of −ln of the belief in the cause. */
  logLoss: number;
  reliability: readonly ReliabilityRow[];
}

/** What is known of a pool without what came after the case was opened; readings of the case itself are its events. */
function asItWas(pool: PoolRecord, { id, openedAt }: CaseRecord): PoolRecord {
  const { company, ...own } = pool;
  const before = ({ at }: { at: number }): boolean => at < openedAt;
  const known: PoolRecord = {
    ...own,
    readings: pool.readings.filter(before),
    cases: pool.cases.filter((one) => one.id !== id && one.confirmed !== undefined && before(one.confirmed)),
  };
  if (company === undefined) return known;
  const { confirmed = [], ...rest } = company;
  return { ...known, company: { ...rest, confirmed: confirmed.filter(before) } };
}

/** The answers before the repair that cured it: that the repair worked is the confirmation itself. */
function beforeCure(record: CaseRecord): CaseRecord {
  const events = record.events.filter((event) => event.kind !== 'repair' || event.result !== 'worked');
  return { ...record, events };
}

/** How well the beliefs fitted. Figures of no case at all are 0. */
export function calibrationOf(judged: readonly Judged[]): Calibration {
  const beliefs = judged.map(({ pool, record, cause }) => {
    const suspects = suspectsOf(caseOf(asItWas(pool, record), beforeCure(record)));
    return { cause, suspects };
  });
  const happened = beliefs.flatMap(({ cause, suspects }) =>
    suspects.map(({ fault }) => (fault === cause ? 1 : 0)),
  );
  const forecasts = beliefs.flatMap(({ suspects }) => suspects.map(({ p }) => p));
  const given = beliefs.map(({ cause, suspects }) =>
    Math.max(LEAST, suspects.find(({ fault }) => fault === cause)?.p ?? 0),
  );
  const cases = judged.length;
  return {
    cases,
    right: beliefs.filter(({ cause, suspects }) => suspects[0]?.fault === cause).length,
    brier: cases === 0 ? 0 : (brierScore(happened, forecasts) * forecasts.length) / cases,
    logLoss: cases === 0 ? 0 : logLoss(given),
    reliability: reliabilityTable(happened, forecasts, CLASSES),
  };
}
