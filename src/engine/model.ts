/** The suspects of one case with their prior weights, and how likely each answer is under each of them. */
import { normalised, withFloor } from '../calc/belief.ts';
import type { FaultId, SuspectId } from '../knowledge/ids.ts';
import { SOMETHING_ELSE } from '../knowledge/ids.ts';
import type { Check, Complaint, Equipment, Fault } from '../knowledge/schema.ts';
import { complaintById, fits, openConditions, TRADE } from '../knowledge/trade.ts';
import type { Setting } from './case.ts';
import { BANDS, bandProbabilities } from './gauge.ts';

/** Weight of how often a fault is met: 5 very common … 1 rare. */
const OFTEN_WEIGHT = { 1: 1, 2: 2, 3: 4, 4: 8, 5: 16 } as const;
/** Share of a complaint that a fault gets without being known for it: a complaint never rules a fault out. */
const UNLISTED = 0.03;
/** A fault whose equipment is not known to be there counts half for each open condition. */
const NOT_KNOWN_TO_BE_THERE = 0.5;
/** Prior probability that none of the known faults is the cause. */
const ELSE_SHARE = 0.03;
/** How wrong answers are allowed for: see `withFloor`. */
export const ANSWER_FLOOR = 0.06;
/** Each earlier confirmation at this pool raises a fault's prior by this share, up to three of them. */
const HISTORY_RISE = 0.5;

const CIRCULATION_DRIVEN = ['suction', 'pressure-booster', 'pressure-return'];

/** Whether a fault of the circulation can show as this complaint at this pool. */
function showsAs(fault: Fault, complaint: Complaint, equipment: Equipment): boolean {
  const ofCirculation = fault.when.cleaner === undefined;
  const cleaner = equipment.cleaner;
  return !(
    complaint.ofCleaner &&
    ofCirculation &&
    cleaner !== undefined &&
    !CIRCULATION_DRIVEN.includes(cleaner)
  );
}

/** Factor by which this pool's own history moves a fault. */
export function historyFactor(fault: FaultId, setting: Setting): number {
  return 1 + HISTORY_RISE * Math.min(3, setting.history[fault] ?? 0);
}

function priorWeight(fault: Fault, setting: Setting): number {
  const complaint = complaintById(setting.complaint);
  const listed = showsAs(fault, complaint, setting.equipment)
    ? fault.complaints[setting.complaint]
    : undefined;
  return (
    OFTEN_WEIGHT[fault.often] *
    (listed ?? UNLISTED) *
    NOT_KNOWN_TO_BE_THERE ** openConditions(fault.when, setting.equipment) *
    historyFactor(fault.id, setting)
  );
}

export interface CaseModel {
  suspects: readonly SuspectId[];
  /** The fault behind each suspect, undefined for "something else". */
  faults: readonly (Fault | undefined)[];
  prior: readonly number[];
  /** Checks that fit the pool and say more than the complaint did. */
  checks: readonly Check[];
}

/** The model of a case before any answer. */
export function modelOf(setting: Setting): CaseModel {
  const faults = TRADE.faults.filter((fault) => fits(fault.when, setting.equipment));
  const weights = normalised(faults.map((fault) => priorWeight(fault, setting)));
  const checks = TRADE.checks.filter(
    (check) => fits(check.when, setting.equipment) && !check.saidBy.includes(setting.complaint),
  );
  return {
    suspects: [...faults.map((fault) => fault.id), SOMETHING_ELSE],
    faults: [...faults, undefined],
    prior: [...weights.map((weight) => weight * (1 - ELSE_SHARE)), ELSE_SHARE],
    checks,
  };
}

/** Outcomes of a check that tell something: its own, or the bands of its gauge. */
export function tellingOutcomes(check: Check): readonly string[] {
  return check.quantity === undefined ? check.outcomes : BANDS;
}

function rawProbabilities(check: Check, fault: Fault | undefined, setting: Setting): readonly number[] {
  if (check.quantity !== undefined)
    return bandProbabilities(check.quantity, fault?.effect ?? 'none', setting.baseline);
  if (fault === undefined) return check.base;
  return check.given.find((row) => row.faults.includes(fault.id))?.outcomes ?? check.base;
}

/** Probability of each telling outcome of a check under one fault (undefined: something else), with the floor. */
export function outcomeProbabilities(check: Check, fault: Fault | undefined, setting: Setting): number[] {
  const raw = rawProbabilities(check, fault, setting);
  return raw.map((probability) => withFloor(probability, raw.length, ANSWER_FLOOR));
}
