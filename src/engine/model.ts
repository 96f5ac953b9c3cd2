/** The suspects of one case with their prior weights, and how likely each answer is under each of them. */
import { normalised, withFloor } from '../calc/belief.ts';
import type { CheckId, FaultId, Quantity, SuspectId } from '../knowledge/ids.ts';
import { SOMETHING_ELSE } from '../knowledge/ids.ts';
import type { Check, Complaint, Effect, Equipment, Fault } from '../knowledge/schema.ts';
import { checkById, complaintById, fits, openConditions, TRADE } from '../knowledge/trade.ts';
import type { Gauges, Setting } from './case.ts';
import { BANDS } from './gauge.ts';
import { bandsUnder, effectLikelihoods } from './readings.ts';
import { recently } from './recently.ts';

/** Weight of how often a fault is met: 5 very common … 1 rare. */
const OFTEN_WEIGHT = { 1: 1, 2: 2, 3: 4, 4: 8, 5: 16 } as const;
/** Share of a complaint that a fault gets without being known for it: a complaint never rules a fault out. */
const UNLISTED = 0.02;
/** A fault whose equipment is not known to be there counts half for each open condition. */
const NOT_KNOWN_TO_BE_THERE = 0.5;
/** Prior probability that none of the known faults is the cause. */
const ELSE_SHARE = 0.03;
/** How wrong answers are allowed for: see `withFloor`. */
export const ANSWER_FLOOR = 0.06;
/** Each earlier confirmation at this pool raises a fault's prior by this share, up to three of them. */
const HISTORY_RISE = 0.5;

const CIRCULATION_DRIVEN = ['suction', 'pressure-booster', 'pressure-return'];

/** A complaint about a cleaner that does not run on the circulation has next to nothing to do with the circulation. */
const UNRELATED = 0.0001;

/** Whether the complaint is about a cleaner that the circulation does not drive, and the fault one of the circulation. */
function isUnrelated(fault: Fault, complaint: Complaint, equipment: Equipment): boolean {
  const ofCirculation = fault.when.cleaner === undefined || fault.when.cleaner.includes('none');
  const { cleaner } = equipment;
  const driven = cleaner === undefined || CIRCULATION_DRIVEN.includes(cleaner);
  return complaint.ofCleaner && ofCirculation && !driven;
}

/** Share of a complaint that a fault gets. */
function complaintShare(fault: Fault, { complaint: id, equipment }: Setting): number {
  if (isUnrelated(fault, complaintById(id), equipment)) return UNRELATED;
  return fault.complaints[id] ?? UNLISTED;
}

/** Factor by which this pool's own history moves a fault. */
export function historyFactor(fault: FaultId, setting: Setting): number {
  return 1 + HISTORY_RISE * Math.min(3, setting.history[fault] ?? 0);
}

function faultsFitting(equipment: Equipment): Fault[] {
  return TRADE.faults.filter((fault) => fits(fault.when, equipment));
}

/** How much a fault is met with this equipment, by the table alone. */
function tableWeight({ often, when }: Fault, equipment: Equipment): number {
  return OFTEN_WEIGHT[often] * NOT_KNOWN_TO_BE_THERE ** openConditions(when, equipment);
}

/** Share of each fault that fits the equipment before any complaint, by the table alone. Sums to one. */
export function tableShares(equipment: Equipment): ReadonlyMap<FaultId, number> {
  const faults = faultsFitting(equipment);
  const shares = normalised(faults.map((fault) => tableWeight(fault, equipment)));
  return new Map(faults.map(({ id }, index) => [id, shares[index] ?? 0]));
}

function priorWeight(fault: Fault, setting: Setting): number {
  return (
    tableWeight(fault, setting.equipment) *
    complaintShare(fault, setting) *
    historyFactor(fault.id, setting) *
    (setting.learnt?.[fault.id] ?? 1)
  );
}

export interface CaseModel {
  suspects: readonly SuspectId[];
  /** The fault behind each suspect, undefined for "something else". */
  faults: readonly (Fault | undefined)[];
  prior: readonly number[];
  /** Checks that fit the pool and say more than the complaint did. */
  checks: readonly Check[];
  /** Likelihood of each telling outcome of a check: a row an outcome, a column a suspect. Worked out when first asked for. */
  likelihood(check: Check): readonly (readonly number[])[];
  /** Likelihood of readings taken together under each suspect, up to a factor; `shakes` where a needle does. */
  ofReadings(gauges: Gauges, shakes: boolean): readonly number[];
}

function freshModel(setting: Setting): CaseModel {
  const faults = faultsFitting(setting.equipment);
  const weights = normalised(faults.map((fault) => priorWeight(fault, setting)));
  const suspects = [...faults, undefined];
  const rows = new Map<CheckId, readonly (readonly number[])[]>();
  return {
    suspects: [...faults.map((fault) => fault.id), SOMETHING_ELSE],
    faults: suspects,
    prior: [...weights.map((weight) => weight * (1 - ELSE_SHARE)), ELSE_SHARE],
    checks: TRADE.checks.filter(
      (check) => fits(check.when, setting.equipment) && !check.saidBy.includes(setting.complaint),
    ),
    likelihood: (check) => {
      const known = rows.get(check.id) ?? likelihoodRows(check, suspects, setting);
      rows.set(check.id, known);
      return known;
    },
    ofReadings: (gauges, shakes) => {
      const byEffect = effectLikelihoods(gauges, setting, shakes);
      return suspects.map((fault) =>
        withFloor(byEffect[fault?.effect ?? 'none'], BANDS.length, ANSWER_FLOOR),
      );
    },
  };
}

const models = recently<Setting, CaseModel>(
  200,
  freshModel,
  ({ complaint, equipment, baseline, cleanSets, figures, history, learnt }) =>
    JSON.stringify([complaint, equipment, baseline, cleanSets, figures, history, learnt]),
);

/** The model of a case before any answer; kept, as a case asks for the same one at every turn. */
export function modelOf(setting: Setting): CaseModel {
  return models(setting);
}

/** Outcomes of a check that tell something: its own, or the bands of its gauge. */
export function tellingOutcomes(check: Check): readonly string[] {
  return check.quantity === undefined ? check.outcomes : BANDS;
}

/** A piece of evidence: an outcome of a check, or the band of a reading. */
export interface Evidence {
  check: CheckId;
  outcome: string;
}

/** Likelihood of a piece of evidence under each suspect, or undefined where it tells nothing. */
export function likelihoodOf(evidence: Evidence, model: CaseModel): readonly number[] | undefined {
  const check = checkById(evidence.check);
  const outcome = tellingOutcomes(check).indexOf(evidence.outcome);
  if (outcome === -1) return undefined;
  return model.likelihood(check)[outcome];
}

type Distributions = ReadonlyMap<FaultId | undefined, readonly number[]>;

function floored(raw: readonly number[]): number[] {
  return raw.map((probability) => withFloor(probability, raw.length, ANSWER_FLOOR));
}

/** The outcomes of a check under each fault that moves them, and under none (key undefined), with the floor. */
function distributionsOf(check: Check): Distributions {
  const moved = check.given.flatMap(({ faults, outcomes }) =>
    faults.map((fault): [FaultId, readonly number[]] => [fault, floored(outcomes)]),
  );
  return new Map<FaultId | undefined, readonly number[]>([...moved, [undefined, floored(check.base)]]);
}

const CHOSEN: ReadonlyMap<CheckId, Distributions> = new Map(
  TRADE.checks.map((check) => [check.id, distributionsOf(check)]),
);

/** Probability of each telling outcome of a check under one fault (undefined: something else), with the floor. */
export function outcomeProbabilities(
  check: Check,
  fault: Fault | undefined,
  setting: Setting,
): readonly number[] {
  if (check.quantity !== undefined)
    return floored(bandsUnder(check.quantity, fault?.effect ?? 'none', setting));
  const distributions = CHOSEN.get(check.id);
  return distributions?.get(fault?.id) ?? distributions?.get(undefined) ?? [];
}

function likelihoodRows(check: Check, suspects: CaseModel['faults'], setting: Setting): number[][] {
  const columns =
    check.quantity === undefined
      ? suspects.map((fault) => outcomeProbabilities(check, fault, setting))
      : gaugeColumns(check.quantity, suspects, setting);
  return tellingOutcomes(check).map((_, outcome) => columns.map((column) => column[outcome] ?? 0));
}

/** Faults with the same effect move a gauge alike: each effect is worked out once. */
function gaugeColumns(
  quantity: Quantity,
  suspects: CaseModel['faults'],
  setting: Setting,
): (readonly number[])[] {
  const byEffect = new Map<Effect, readonly number[]>();
  return suspects.map((fault) => {
    const effect = fault?.effect ?? 'none';
    const known = byEffect.get(effect) ?? floored(bandsUnder(quantity, effect, setting));
    byEffect.set(effect, known);
    return known;
  });
}
