/** From equipment and clean baselines to a model of one pool: the pools that it may be, and how likely each is. */
import type { Equipment } from '../../knowledge/schema.ts';
import { questionOfBaselines, speedGroups, type Baseline, type Question } from './baseline.ts';
import { fitCandidate, type Fit, type Member } from './fit-candidate.ts';
import { CANDIDATES } from './candidate-scores.ts';
import { candidateAt, type KnownFacts } from './prior.ts';

/** A pool as the hydraulics know it. Weights of the members sum to one. */
export interface HydraulicModel {
  readonly equipment: Equipment;
  readonly known: KnownFacts;
  readonly members: readonly Member[];
  /** How many baselines it stands on; 0 is a pool known by its equipment only. */
  readonly baselines: number;
}

export type Calibration =
  | { readonly kind: 'calibrated'; readonly model: HydraulicModel }
  | { readonly kind: 'questioned'; readonly question: Question };

/** Members kept of the candidates: enough for steady 10 and 90 % points, few enough to answer at once. */
const MEMBERS = 56;
/** With fewer of the candidates able to show the readings than this, a sixth or so, the readings are questioned. */
const FEWEST_FITS = 30;
/** Even the best candidate four standard deviations out in both losses: unlike any pool. */
const LEAST_LOG_WEIGHT = -14;

type Fitted = Extract<Fit, { kind: 'member' }>;

function commonestRefusal(fits: readonly Fit[]): Question {
  const counts = new Map<Question['reason'], number>();
  for (const fit of fits)
    if (fit.kind === 'refused') counts.set(fit.reason, (counts.get(fit.reason) ?? 0) + 1);
  const [first] = [...counts].sort((a, b) => b[1] - a[1]);
  return { reason: first?.[0] ?? 'unlike-any-pool' };
}

/** Evenly spaced picks along the flow, so that few members still span the range (systematic resampling). */
function thinned(fits: readonly Fitted[]): Member[] {
  const most = Math.max(...fits.map((fit) => fit.logWeight));
  const byFlow = [...fits].sort((a, b) => a.member.clean.flowM3PerS - b.member.clean.flowM3PerS);
  const weights = byFlow.map((fit) => Math.exp(fit.logWeight - most));
  const step = weights.reduce((sum, weight) => sum + weight, 0) / MEMBERS;
  const members: Member[] = [];
  let passed = 0;
  byFlow.forEach(({ member }, at) => {
    const before = Math.floor(passed / step + 0.5);
    passed += weights[at] ?? 0;
    const picks = Math.floor(passed / step + 0.5) - before;
    if (picks > 0) members.push({ ...member, weight: picks });
  });
  return members;
}

/**
 * The model of a pool from its equipment and any number of clean baselines (none is allowed: the model is then
 * that of pools of this kind at large). Never throws; readings that contradict themselves, each other or the
 * equipment come back as a question. Deterministic.
 */
export function calibrate(
  equipment: Equipment,
  baselines: readonly Baseline[],
  known: KnownFacts = {},
): Calibration {
  const question = questionOfBaselines(baselines);
  if (question) return { kind: 'questioned', question };
  const groups = speedGroups(baselines);
  const fits = Array.from({ length: CANDIDATES }, (_, index) =>
    fitCandidate(candidateAt(equipment, known, index), groups),
  );
  const fitted = fits.filter((fit) => fit.kind === 'member');
  if (fitted.length < FEWEST_FITS) return { kind: 'questioned', question: commonestRefusal(fits) };
  if (Math.max(...fitted.map((fit) => fit.logWeight)) < LEAST_LOG_WEIGHT)
    return { kind: 'questioned', question: { reason: 'unlike-any-pool' } };
  const members = thinned(fitted);
  const total = members.reduce((sum, member) => sum + member.weight, 0);
  return {
    kind: 'calibrated',
    model: {
      equipment,
      known,
      members: members.map((member) => ({ ...member, weight: member.weight / total })),
      baselines: baselines.length,
    },
  };
}
