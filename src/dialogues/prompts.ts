/** How a check, a caution or a repair is put to the person. */
import { isAnswer, REPAIR_RESULTS } from '../engine/case.ts';
import { stepData } from '../engine/next.ts';
import { padAfter } from '../engine/pad.ts';
import type { Case, CaseEvent } from '../engine/case.ts';
import { reasonFor } from '../engine/explain.ts';
import { minutesLeft } from '../engine/minutes-left.ts';
import type { CautionId, FaultId } from '../knowledge/ids.ts';
import type { Check } from '../knowledge/schema.ts';
import { checkById, faultById } from '../knowledge/trade.ts';
import type { ConsultPrompt } from './conversation.ts';
import { reasonText } from './reason.ts';
import type { Option, Say, Text } from './say.ts';
import { text } from './say.ts';
import { SKIP, UNSURE } from './words.ts';

function outcomeOption(check: Check, outcome: string): Option {
  return { id: outcome, label: text(`checks:${check.id}.outcomes.${outcome}`) };
}

/** Putting the cleaner and hose back, where the last step had them out and this one needs them at work. */
function preparation(
  prompt: Exclude<ConsultPrompt, { kind: 'caution' }>,
  events: readonly CaseEvent[],
): Text[] {
  const putBack = stepData(prompt).needs.hose === 'in' && padAfter(events).hose === 'out';
  return putBack ? [text('dialogue:prepare.hose-back')] : [];
}

function askCheck(check: Check, before: readonly Text[]): Say {
  const options = [...check.outcomes, ...check.silent].map((outcome) => outcomeOption(check, outcome));
  const say: Say = {
    kind: check.quantity === undefined ? 'check' : 'reading',
    id: check.id,
    text: [...before, text(`checks:${check.id}.ask`)],
    options: [...options, UNSURE, SKIP],
    class: check.class,
    minutes: check.minutes,
  };
  return check.quantity === undefined ? say : { ...say, expects: 'reading' };
}

function askRepair(fault: FaultId, before: readonly Text[]): Say {
  const { repair } = faultById(fault);
  return {
    kind: 'repair',
    id: fault,
    text: [...before, text(`faults:${fault}.repair`), text('dialogue:repair.ask')],
    options: REPAIR_RESULTS.map((result) => ({ id: result, label: text(`dialogue:repair.${result}`) })),
    class: repair.class,
    minutes: repair.minutes,
  };
}

function askCaution(caution: CautionId): Say {
  return {
    kind: 'caution',
    id: caution,
    text: [text(`cautions:${caution}.text`)],
    options: [{ id: 'understood', label: text('dialogue:option.understood') }],
  };
}

/** Whole minutes from two on: below that, this step's own. */
function aboutLeft(oneCase: Case, belief: readonly number[], minutes: number): number {
  const left = Math.max(minutes, minutesLeft(oneCase, belief));
  return left < 2 ? left : Math.round(left);
}

/** The message for what a consult is waiting for, with the reason why it comes next. */
export function askPrompt(prompt: ConsultPrompt, oneCase: Case, belief: readonly number[]): Say {
  if (prompt.kind === 'caution') return askCaution(prompt.caution);
  const { events } = oneCase;
  const before = [...preparation(prompt, events), reasonText(reasonFor(prompt, oneCase, belief))];
  const step = events.filter(isAnswer).length + 1;
  const say =
    prompt.kind === 'repair' ? askRepair(prompt.fault, before) : askCheck(checkById(prompt.check), before);
  return { ...say, step, minutesLeft: aboutLeft(oneCase, belief, say.minutes ?? 0) };
}
