/** Why the engine suspects what it does: the answers that moved each suspect, strongest first. */
import type { CheckId, FaultId, SuspectId } from '../knowledge/ids.ts';
import { SOMETHING_ELSE } from '../knowledge/ids.ts';
import type { Suspicion } from './belief.ts';
import { beliefOf, countingEvents, evidenceOf, topSuspects } from './belief.ts';
import type { Check, Step } from '../knowledge/schema.ts';
import { checkById, faultById } from '../knowledge/trade.ts';
import type { Case } from './case.ts';
import { checksDone } from './case.ts';
import { movedByHistory } from './learning.ts';
import type { CaseModel, Evidence } from './model.ts';
import { historyFactor, likelihoodOf, modelOf } from './model.ts';
import type { NextStep } from './next.ts';
import { answerToAskAgain } from './surprise.ts';

/** An answer is named where it moved a suspect by at least this factor, up or down. */
const WORTH_NAMING = 1.4;
const NAMED_EACH_WAY = 2;

export interface Explanation extends Suspicion {
  /** Answers that made the suspect likelier, strongest first. */
  raisedBy: Evidence[];
  /** Answers that made it less likely, strongest first. */
  loweredBy: Evidence[];
  /** This pool had the fault before, which raised it. */
  byHistory: boolean;
  /** What a company confirmed at other pools moved it that way, enough to say so. */
  byCompany?: 'raised' | 'lowered';
}

interface Moved {
  evidence: Evidence;
  /** Likelihood under the suspect over that under the suspects at large. */
  factor: number;
}

function movedBy(oneCase: Case, model: CaseModel, suspect: number): Moved[] {
  return countingEvents(oneCase, model).flatMap((event) => {
    const evidence = evidenceOf(event, oneCase.setting);
    const likelihood =
      event.kind === 'reading'
        ? model.ofReadings({ [event.check]: event.value }, event.unsteady === true)
        : evidence && likelihoodOf(evidence, model);
    if (evidence === undefined || likelihood === undefined) return [];
    const atLarge = model.prior.reduce((sum, p, index) => sum + p * (likelihood[index] ?? 0), 0);
    return [{ evidence, factor: (likelihood[suspect] ?? 0) / atLarge }];
  });
}

function strongest(moved: readonly Moved[], strength: (factor: number) => number): Evidence[] {
  return moved
    .filter(({ factor }) => strength(factor) >= WORTH_NAMING)
    .sort((a, b) => strength(b.factor) - strength(a.factor))
    .slice(0, NAMED_EACH_WAY)
    .map(({ evidence }) => evidence);
}

function byHistory(fault: SuspectId, oneCase: Case): boolean {
  return fault !== SOMETHING_ELSE && historyFactor(fault, oneCase.setting) > 1;
}

function byCompany(fault: SuspectId, { setting }: Case): 'raised' | 'lowered' | undefined {
  return fault === SOMETHING_ELSE ? undefined : movedByHistory(setting.learnt?.[fault] ?? 1);
}

/** The `most` likeliest suspects with what moved them. */
export function explained(oneCase: Case, most: number): Explanation[] {
  const model = modelOf(oneCase.setting);
  return topSuspects(beliefOf(oneCase, model), model, most).map((suspicion) => {
    const moved = movedBy(oneCase, model, model.suspects.indexOf(suspicion.fault));
    const company = byCompany(suspicion.fault, oneCase);
    return {
      ...suspicion,
      raisedBy: strongest(moved, (factor) => factor),
      loweredBy: strongest(moved, (factor) => 1 / factor),
      byHistory: byHistory(suspicion.fault, oneCase),
      ...(company === undefined ? {} : { byCompany: company }),
    };
  });
}

/** A suspect at least this likely counts among the likely causes. */
const LIKELY = 0.04;
/** An answer rules a suspect out where it leaves no more than this part of its share. */
const RULED_OUT = 0.25;
/** Answers less likely than this are not spoken of. */
const WORTH_EXPECTING = 0.1;

/** Why a step comes next: one short reason, the words being the dialogue's. */
export type Reason =
  /** The answer given before does not fit the rest. */
  | { key: 'again' }
  /** The person was not sure before. */
  | { key: 'unsure-before' }
  /** It was answered before, and little else is left to try. */
  | { key: 'little-left' }
  /** An answer may rule out so many of the likely causes. */
  | { key: 'rules-out'; out: number; likely: number; minutes: number }
  /** The look tells whether the one likely cause is there. */
  | { key: 'confirms'; minutes: number }
  /** Nothing is opened or switched off for it, and it takes little. */
  | { key: 'safe-and-quick'; minutes: number }
  /** The repair of the likeliest cause. */
  | { key: 'likeliest'; fault: FaultId; minutes: number }
  /** A repair that is quick beside what else could be done. */
  | { key: 'quick-to-try'; fault: FaultId; minutes: number };

/** Whole minutes, at least one: nobody counts half a minute. */
function aboutMinutes({ minutes }: Step): number {
  return Math.max(1, Math.round(minutes));
}

/** The most of the likely suspects that one answer to be expected would rule out. */
function mostRuledOut(check: Check, belief: readonly number[], model: CaseModel): number {
  const likely = belief.flatMap((p, suspect) => (p >= LIKELY ? [suspect] : []));
  const ruledOut = model.likelihood(check).map((row) => {
    const probability = belief.reduce((sum, p, suspect) => sum + p * (row[suspect] ?? 0), 0);
    if (probability < WORTH_EXPECTING) return 0;
    return likely.filter((suspect) => (row[suspect] ?? 0) / probability <= RULED_OUT).length;
  });
  return Math.max(0, ...ruledOut);
}

function reasonToRepeat(check: CheckId, oneCase: Case, belief: readonly number[], model: CaseModel): Reason {
  if (answerToAskAgain(oneCase, model, belief)?.check === check) return { key: 'again' };
  const before = oneCase.events.findLast((event) => 'check' in event && event.check === check);
  return { key: before?.kind === 'retired' ? 'unsure-before' : 'little-left' };
}

function reasonForCheck(check: Check, oneCase: Case, belief: readonly number[], model: CaseModel): Reason {
  const minutes = aboutMinutes(check);
  if (checksDone(oneCase.events).has(check.id)) return reasonToRepeat(check.id, oneCase, belief, model);
  const likely = belief.filter((p) => p >= LIKELY).length;
  const out = mostRuledOut(check, belief, model);
  if (out > 0 && likely > 1) return { key: 'rules-out', out, likely, minutes };
  return out > 0 ? { key: 'confirms', minutes } : { key: 'safe-and-quick', minutes };
}

/** Why this step comes next in the case, before it is put to the person. Minutes are those of the step itself. */
export function reasonFor(
  step: NextStep,
  oneCase: Case,
  belief: readonly number[] = beliefOf(oneCase),
): Reason {
  const model = modelOf(oneCase.setting);
  if (step.kind === 'check') return reasonForCheck(checkById(step.check), oneCase, belief, model);
  const [first] = topSuspects(belief, model, 1);
  const minutes = aboutMinutes(faultById(step.fault).repair);
  return { key: first?.fault === step.fault ? 'likeliest' : 'quick-to-try', fault: step.fault, minutes };
}
