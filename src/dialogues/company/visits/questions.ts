/** What is asked further before a visit is changed: who goes, on which day, what the owner is to be asked. */
import type { Context, Flow, Move } from '../../conversation.ts';
import type { Understood } from '../../event.ts';
import type { Option, Say } from '../../say.ts';
import { info, question, text } from '../../say.ts';
import { NO, YES } from '../../words.ts';
import type { Colleague } from '../company.ts';
import { toOffice } from '../sends.ts';
import { DONE, roleName, saidAndBack } from '../words.ts';
import { DAYS_AHEAD, dayAt } from './day.ts';
import type { Beside, Found } from './deeds.ts';
import { changed, foundIn, outcomeFor, unchanged } from './deeds.ts';
import type { VisitDeed } from './states.ts';
import type { Visit } from './visit.ts';
import { dayFact, poolText, standing, suitsText } from './words.ts';

type QuestionFlow = Extract<
  Flow,
  { at: 'assign-visit' | 'schedule-visit' | 'ask-owner' | 'answer-company' | 'cancel-visit' }
>;

const LONGEST_NOTE = 400;
const COLLEAGUES_SHOWN = 30;

/** Those who can go, technicians first, each once. */
function whoCanGo({ given }: Found, { facts }: Context): Colleague[] {
  const staff = facts.office.people(given, COLLEAGUES_SHOWN).filter(({ role }) => role !== 'owner');
  const first = [...staff].sort((a, b) => Number(b.role === 'technician') - Number(a.role === 'technician'));
  return first.filter(({ person }, index) => first.findIndex((one) => one.person === person) === index);
}

function colleague({ person, name, role }: Colleague): Option {
  return { id: person, label: name === '' ? roleName(role) : text('visits:in-own-words', { words: name }) };
}

function choices({ at }: QuestionFlow, found: Found, context: Context): Option[] {
  switch (at) {
    case 'assign-visit':
      return [...whoCanGo(found, context).map(colleague), DONE];
    case 'schedule-visit':
      return [...days(found, context), DONE];
    case 'cancel-visit':
      return [YES, NO];
    case 'ask-owner':
    case 'answer-company':
      return [DONE];
  }
}

function days({ given }: Found, { facts }: Context): Option[] {
  return Array.from({ length: DAYS_AHEAD }, (_, daysOn) => {
    const day = dayAt(facts.now, given.company, daysOn);
    return { id: day, label: text('visits:day', { day: dayFact(day) }) };
  });
}

/** The one thing that is still to be said. */
export function askVisitQuestion(flow: QuestionFlow, context: Context): Say[] {
  const found = foundIn(flow, context);
  if (found === undefined) return [question(flow.at, text('visits:gone'), [DONE])];
  const { visit, given } = found;
  const facts = { pool: poolText(visit), suits: suitsText(visit.suits), company: given.company.name };
  const say = question(flow.at, text(`visits:ask.${flow.at}`, facts), choices(flow, found, context));
  const isNote = flow.at === 'ask-owner' || flow.at === 'answer-company';
  return [isNote ? { ...say, expects: 'name' } : say];
}

function done(
  flow: QuestionFlow,
  deed: VisitDeed,
  found: Found,
  context: Context,
  beside: Beside = {},
): Move {
  const outcome = outcomeFor(found.visit, deed, context.facts);
  if ('not' in outcome) return saidAndBack(flow.then, unchanged(found.visit, outcome));
  return { flow: flow.then, ...changed(found, outcome.to, context, beside), quiet: true };
}

function noteIn(event: Understood): string {
  return event.kind === 'unclear' ? event.text.trim().slice(0, LONGEST_NOTE) : '';
}

function asked(flow: QuestionFlow, note: string, { visit, given }: Found): Move {
  const { owner, pool: about } = visit;
  if (owner === undefined)
    return saidAndBack(flow.then, info('no-owner', text('visits:no-owner', { pool: poolText(visit) })));
  const words = text('visits:asks-owner', { company: given.company.name, note });
  return {
    ...saidAndBack(flow.then, info('owner-asked', text('visits:owner-asked'))),
    sends: [
      { to: { person: owner }, says: [standing('company-asks', words, ['answer-company'], visit.id)], about },
    ],
  };
}

/** The owner's words go to the office and to the technician who has the visit. */
function answered(flow: QuestionFlow, note: string, { visit, given }: Found, context: Context): Move {
  const { technician, pool: about } = visit;
  const say = standing(
    'owner-says',
    text('visits:owner-says', { pool: poolText(visit), note }),
    ['open-visit'],
    visit.id,
  );
  const toTechnician = technician === undefined ? [] : [{ to: { person: technician }, says: [say], about }];
  return {
    ...saidAndBack(
      flow.then,
      info('company-answered', text('visits:passed-on', { company: given.company.name })),
    ),
    sends: [...toOffice(given, context, [say], about), ...toTechnician],
  };
}

function chosen(flow: QuestionFlow, option: string, found: Found, context: Context): Move | undefined {
  if (!choices(flow, found, context).some(({ id }) => id === option)) return undefined;
  if (flow.at === 'schedule-visit') return done(flow, 'schedule', found, context, { day: option });
  if (flow.at === 'cancel-visit')
    return option === 'yes' ? done(flow, 'cancel', found, context) : { flow: flow.then };
  const technician = whoCanGo(found, context).find(({ person }) => person === option);
  return technician && done(flow, 'assign', found, context, { technician });
}

/** Whether the visit is still to be done: what was open for an answer may have ended meanwhile. */
function stillToDo(visit: Visit, { facts }: Context, deed: VisitDeed): Say | undefined {
  const outcome = outcomeFor(visit, deed, facts);
  return 'not' in outcome ? unchanged(visit, outcome) : undefined;
}

/** Makes the change, or passes on what was said. */
export function answerVisitQuestion(
  flow: QuestionFlow,
  event: Understood,
  context: Context,
): Move | undefined {
  const found = foundIn(flow, context);
  if (found === undefined || (event.kind === 'answer' && event.option === 'done')) return { flow: flow.then };
  const note = noteIn(event);
  if (flow.at === 'answer-company' && note !== '') return answered(flow, note, found, context);
  if (flow.at === 'ask-owner' && note !== '') {
    const ended = stillToDo(found.visit, context, 'ask');
    return ended === undefined ? asked(flow, note, found) : saidAndBack(flow.then, ended);
  }
  return event.kind === 'answer' ? chosen(flow, event.option, found, context) : undefined;
}
