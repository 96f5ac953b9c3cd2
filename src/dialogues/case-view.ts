/** A pool's case as the engine sees it. */
import type { Case, Setting } from '../engine/case.ts';
import { fadedCounts, learntFactors } from '../engine/learning.ts';
import { tableShares } from '../engine/model.ts';
import type { Known } from '../engine/readings.ts';
import type { Costs } from '../knowledge/costs.ts';
import { DEFAULT_COSTS } from '../knowledge/costs.ts';
import type { ComplaintId } from '../knowledge/ids.ts';
import type { Equipment } from '../knowledge/schema.ts';
import { EQUIPMENT } from '../knowledge/schema.ts';
import { complaintById } from '../knowledge/trade.ts';
import type { CaseRecord, PoolRecord } from './record.ts';
import { cleanBaseline, cleanSets, confirmedFaults } from './record.ts';

/** The equipment, with the kind of cleaner where the complaint alone gives it away. */
export function equipmentFor(complaint: ComplaintId, equipment: Equipment): Equipment {
  const cleaners = complaintById(complaint).when.cleaner ?? [];
  const only = EQUIPMENT.cleaner.find((kind) => cleaners.length === 1 && cleaners[0] === kind);
  return only === undefined ? equipment : { ...equipment, cleaner: only };
}

/** What the hydraulics go by. */
export function knownOf(pool: PoolRecord): Known {
  const { equipment, figures } = pool;
  return { equipment, figures, baseline: cleanBaseline(pool), cleanSets: cleanSets(pool) };
}

function settingOf(pool: PoolRecord, { complaint, role, openedAt }: CaseRecord): Setting {
  const learnt = learntAt(pool, openedAt);
  return {
    ...knownOf(pool),
    complaint,
    role,
    equipment: equipmentFor(complaint, pool.equipment),
    missing: pool.missing,
    history: confirmedFaults(pool),
    costs: costsOf(pool),
    ...(learnt === undefined ? {} : { learnt }),
  };
}

/**
 * How the causes that the pool's company confirmed move the priors, as of the time the case was opened: what is
 * confirmed meanwhile does not move a case that is under way.
 */
function learntAt({ company, equipment }: PoolRecord, openedAt: number): Setting['learnt'] {
  const confirmed = (company?.confirmed ?? []).filter(({ at }) => at <= openedAt);
  if (confirmed.length === 0) return undefined;
  const counts = fadedCounts(
    confirmed.map((one) => ({ ...one, equipment })),
    equipment,
    openedAt,
  );
  return Object.fromEntries(learntFactors(tableShares(equipment), counts));
}

/** A company says itself what a visit is worth. */
function costsOf({ company }: PoolRecord): Costs {
  if (company === undefined) return DEFAULT_COSTS;
  return { ...DEFAULT_COSTS, handOff: { ...DEFAULT_COSTS.handOff, owner: company.handOffMinutes } };
}

/** The case with all that its pool's record adds. */
export function caseOf(pool: PoolRecord, record: CaseRecord): Case {
  return { setting: settingOf(pool, record), events: record.events };
}
