/** The questions of a company. */
import type { Flow, Question } from '../conversation.ts';
import { answerWhichCompany, askWhichCompany } from './commands.ts';
import { answerFindPool, askFindPool } from './find.ts';
import { answerImport, askImport } from './import.ts';
import { answerInvitations, answerInvite, askInvitations, askInvite } from './invite.ts';
import { answerJoin, answerOwnName, askJoin, askOwnName } from './join.ts';
import {
  answerLeave,
  answerPeople,
  answerRemovePerson,
  askLeave,
  askPeople,
  askRemovePerson,
} from './people.ts';
import { answerReport, askReport } from './report/report.ts';
import { answerClosing, askClosing } from './visits/closing.ts';
import { answerVisitList, askVisitList } from './visits/lists.ts';
import { answerVisitQuestion, askVisitQuestion } from './visits/questions.ts';
import { answerWanted, askWanted } from './visits/wanted.ts';
import { answerSetting, answerSettings, askSetting, askSettings } from './settings.ts';

/** What each asks, and what an answer to it does. */
export const COMPANY_QUESTIONS = {
  join: { ask: askJoin, answer: answerJoin },
  'own-name': { ask: askOwnName, answer: answerOwnName },
  'which-company': { ask: askWhichCompany, answer: answerWhichCompany },
  invite: { ask: askInvite, answer: answerInvite },
  'find-pool': { ask: askFindPool, answer: answerFindPool },
  invitations: { ask: askInvitations, answer: answerInvitations },
  people: { ask: askPeople, answer: answerPeople },
  'remove-person': { ask: askRemovePerson, answer: answerRemovePerson },
  'company-settings': { ask: askSettings, answer: answerSettings },
  'company-setting': { ask: askSetting, answer: answerSetting },
  import: { ask: askImport, answer: answerImport },
  leave: { ask: askLeave, answer: answerLeave },
  report: { ask: askReport, answer: answerReport },
  'visit-wanted': { ask: askWanted, answer: answerWanted },
  'visit-list': { ask: askVisitList, answer: answerVisitList },
  'assign-visit': { ask: askVisitQuestion, answer: answerVisitQuestion },
  'schedule-visit': { ask: askVisitQuestion, answer: answerVisitQuestion },
  'ask-owner': { ask: askVisitQuestion, answer: answerVisitQuestion },
  'answer-company': { ask: askVisitQuestion, answer: answerVisitQuestion },
  'cancel-visit': { ask: askVisitQuestion, answer: answerVisitQuestion },
  'close-visit': { ask: askClosing, answer: answerClosing },
} satisfies { [At in Flow['at']]?: Question<Extract<Flow, { at: At }>> };
