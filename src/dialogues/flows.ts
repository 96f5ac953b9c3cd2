/** Everything a conversation can be waiting for: what is asked, and what an answer does. */
import { answerCalculate, askCalculate } from './calculators/calculate.ts';
import { answerErase, answerStillOpen, askErase, askStillOpen } from './commands.ts';
import { COMPANY_QUESTIONS } from './company/flows.ts';
import { answerComplaint, askComplaint } from './complaint.ts';
import { answerConsult, askConsult } from './consult.ts';
import type { Context, Flow, Move, Question } from './conversation.ts';
import { answerDoubt } from './doubt.ts';
import type { Understood } from './event.ts';
import { answerLanguage, answerRole, askLanguage, askRole } from './introduce.ts';
import { answerPoolName, answerPools, askPoolName, askPools } from './pools.ts';
import { answerEditEquipment, answerEditPool, askEditEquipment, askEditPool } from './profile.ts';
import { answerBaselineOffer, answerGauge, askBaselineOffer, askDoubt, askGauge } from './readings.ts';
import type { Say } from './say.ts';
import { answerSetup, askSetup } from './setup.ts';
import { answerZone, askZone } from './zone.ts';

/** Every flow but the read-back, whose answer is a turn of its own. */
export type QuestionFlow = Exclude<Flow, { at: 'confirm' }>;

const QUESTIONS = {
  language: { ask: askLanguage, answer: answerLanguage },
  role: { ask: askRole, answer: answerRole },
  complaint: {
    ask: (_, context) => askComplaint(context),
    answer: (_, event, context) => answerComplaint(event, context),
  },
  profile: { ask: askSetup, answer: answerSetup },
  'edit-pool': { ask: (_, context) => askEditPool(context), answer: answerEditPool },
  'edit-equipment': { ask: askEditEquipment, answer: answerEditEquipment },
  consult: { ask: askConsult, answer: answerConsult },
  'still-open': { ask: askStillOpen, answer: answerStillOpen },
  'baseline-offer': {
    ask: askBaselineOffer,
    answer: (_, event, context) => answerBaselineOffer(event, context),
  },
  gauge: { ask: askGauge, answer: answerGauge },
  doubt: { ask: askDoubt, answer: answerDoubt },
  pools: { ask: (_, context) => askPools(context), answer: answerPools },
  'pool-name': { ask: askPoolName, answer: answerPoolName },
  erase: { ask: askErase, answer: answerErase },
  calculate: { ask: askCalculate, answer: answerCalculate },
  zone: { ask: askZone, answer: answerZone },
  ...COMPANY_QUESTIONS,
} satisfies { [At in QuestionFlow['at']]: Question<Extract<Flow, { at: At }>> };

function questionOf<F extends QuestionFlow>(flow: F): Question<F> {
  // Each entry fits the flow of its own name, which the table above is checked for.
  return QUESTIONS[flow.at] as unknown as Question<F>;
}

/** What a question asks. */
export function askFlow(flow: QuestionFlow, context: Context): Say[] {
  return questionOf(flow).ask(flow, context);
}

/** What an answer to a question does; undefined where it is none. */
export function answerFlow(flow: QuestionFlow, event: Understood, context: Context): Move | undefined {
  return questionOf(flow).answer(flow, event, context);
}
