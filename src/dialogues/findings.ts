/** Findings told in a message: which can be taken, and what is said to them. */
import type { Case } from '../engine/case.ts';
import { modelOf } from '../engine/model.ts';
import type { CheckId, ComplaintId } from '../knowledge/ids.ts';
import { checkById } from '../knowledge/trade.ts';
import type { Context } from './conversation.ts';
import type { Finding } from './event.ts';
import { eventChange, padUnknown } from './open-case.ts';
import type { FullCase, RecordChange } from './record.ts';
import type { Say } from './say.ts';
import { info, text } from './say.ts';
import { finding } from './words.ts';

/** What a finding calls for at once, before anything else is asked. */
export function urgentWord(check: CheckId, outcome: string): Say[] {
  return check === 'pump-running' && outcome === 'hums' ? [info('hums', text('dialogue:hums-off'))] : [];
}

/** What a complaint tells of a check: a pump that hums was heard to hum, and is to be switched off at once. */
export function saidByComplaint(complaint: ComplaintId): Finding[] {
  return complaint === 'pump-hums' ? [{ check: 'pump-running', outcome: 'hums' }] : [];
}

/** A motor that hums and does not turn burns out: an owner who was told to leave it off is led to nothing further. */
export function mustStayOff({ setting, events }: Case): boolean {
  const told = events.findLast((event) => event.kind === 'answer' && event.check === 'pump-running');
  return setting.role === 'owner' && told?.kind === 'answer' && told.outcome === 'hums';
}

/** The checks that can tell something in a case. */
export function fittingChecks({ setting }: Case): CheckId[] {
  return modelOf(setting).checks.map(({ id }) => id);
}

/** The findings of a message that can be taken in a case: none of a check that does not fit its pool, none twice. */
export function fittingFindings(findings: readonly Finding[], oneCase: Case): Finding[] {
  const fitting = fittingChecks(oneCase);
  const isKnown = ({ check, outcome }: Finding): boolean =>
    fitting.includes(check) && checkById(check).outcomes.includes(outcome);
  return findings.filter(
    (one, at) => isKnown(one) && findings.findIndex(({ check }) => check === one.check) === at,
  );
}

/**
 * Findings as events. What was found without being asked for was found in some state of the pad that nobody told, so
 * nothing acknowledged before is relied on. `asked`: the check that is open.
 */
export function findingChanges(
  findings: readonly Finding[],
  asked: CheckId | undefined,
  open: FullCase,
  context: Context,
): RecordChange[] {
  const at = context.facts.now;
  const noted = findings.map(({ check, outcome }) =>
    eventChange(open, { kind: 'answer', check, outcome, at }),
  );
  const isAsked = ({ check }: Finding): boolean => check === asked;
  return findings.every(isAsked) ? noted : [...noted, padUnknown(open, context)];
}

/** What was taken, said back. */
export function findingSays(findings: readonly Finding[]): Say[] {
  if (findings.length === 0) return [];
  const found = findings.map(finding);
  return [
    info('noted', text('dialogue:confirm.noted', { found })),
    ...findings.flatMap(({ check, outcome }) => urgentWord(check, outcome)),
  ];
}
