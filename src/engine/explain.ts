/** Why the engine suspects what it does: the answers that moved each suspect, strongest first. */
import type { SuspectId } from '../knowledge/ids.ts';
import { SOMETHING_ELSE } from '../knowledge/ids.ts';
import type { Evidence, Suspicion } from './belief.ts';
import {
  beliefOf,
  countingEvents,
  evidenceOf,
  likelihoodOf,
  readingsLikelihood,
  topSuspects,
} from './belief.ts';
import type { Case } from './case.ts';
import type { CaseModel } from './model.ts';
import { historyFactor, modelOf } from './model.ts';

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
}

interface Moved {
  evidence: Evidence;
  /** Likelihood under the suspect over that under the suspects at large. */
  factor: number;
}

function movedBy(oneCase: Case, model: CaseModel, suspect: number): Moved[] {
  return countingEvents(oneCase.events).flatMap((event) => {
    const evidence = evidenceOf(event, oneCase.setting);
    const likelihood =
      event.kind === 'reading'
        ? readingsLikelihood({ [event.check]: event.value }, model, oneCase.setting)
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

/** The `most` likeliest suspects with what moved them. */
export function explained(oneCase: Case, most: number): Explanation[] {
  const model = modelOf(oneCase.setting);
  return topSuspects(beliefOf(oneCase, model), model, most).map((suspicion) => {
    const moved = movedBy(oneCase, model, model.suspects.indexOf(suspicion.fault));
    return {
      ...suspicion,
      raisedBy: strongest(moved, (factor) => factor),
      loweredBy: strongest(moved, (factor) => 1 / factor),
      byHistory: byHistory(suspicion.fault, oneCase),
    };
  });
}
