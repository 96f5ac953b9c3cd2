/** Visits to choose from: the queue of the office, and the day of a technician. */
import { permit } from '../../access.ts';
import type { Context, Flow, Move, Send } from '../../conversation.ts';
import type { ActId, Understood } from '../../event.ts';
import type { Option, Say } from '../../say.ts';
import { info, question, text } from '../../say.ts';
import type { Permit } from '../permit.ts';
import { DONE, saidAndBack } from '../words.ts';
import { closeChosen } from './closing.ts';
import { today } from './day.ts';
import type { Found } from './deeds.ts';
import { caseBehind, outcomeFor } from './deeds.ts';
import { listed } from './listed.ts';
import type { VisitDeed } from './states.ts';
import type { Visit } from './visit.ts';
import { briefSay, dayFact, poolText, visitLine } from './words.ts';

type ListFlow = Extract<Flow, { at: 'visit-list' }>;

/** The beginning of a list: what is in it, or that nothing is. */
export function visitList(list: 'queue' | 'today', given: Permit, then: Flow, context: Context): Move {
  const { company } = given;
  if (listed({ list }, given, context).length === 0)
    return saidAndBack(then, info(list, text(`visits:${list}.none`, { company: company.name })));
  return { flow: { at: 'visit-list', list, company: company.id, then } };
}

function label(visit: Visit, place: number, list: ListFlow['list']): Option {
  const pool = poolText(visit);
  return {
    id: visit.id,
    label: text(list === 'queue' ? 'visits:queue.item' : 'visits:today.item', { place, pool }),
  };
}

/** The list itself, a line a visit, and a button for each. */
export function askVisitList(flow: ListFlow, context: Context): Say[] {
  const { facts } = context;
  const given = permit({ flow: 'visit-list' }, flow.company, facts);
  if (given === undefined) return [];
  const found = listed(flow, given, context);
  const count = flow.list === 'queue' ? facts.office.visits.openCount(given) : found.length;
  const day = dayFact(today(facts.now, given.company));
  const head = text(`visits:${flow.list}.ask`, { count, company: given.company.name, day });
  const options = found.map((visit, index) => label(visit, index + 1, flow.list));
  const lines = found.map((visit, index) =>
    text('visits:numbered', { place: index + 1, line: visitLine(visit, facts.now) }),
  );
  return [{ ...question(`visits-${flow.list}`, head, [...options, DONE]), text: [head, ...lines] }];
}

/** The code of the gate goes to the technician alone, in their own conversation, and is not kept there. */
function codeFor({ given, visit }: Found, { facts }: Context): Send[] {
  const code = facts.office.visits.gateCode(given, visit.id);
  if (code === undefined) return [];
  const words = text('visits:gate-code', { pool: poolText(visit), code });
  const say: Say = { ...info('gate-code', words), secret: true };
  return [{ to: { person: facts.person }, says: [say], about: visit.pool }];
}

const DEEDS: readonly (readonly [act: ActId, deeds: readonly VisitDeed[]])[] = [
  ['accept-visit', ['accept']],
  ['assign-visit', ['assign', 'take']],
  ['set-out', ['set-out']],
  ['schedule-visit', ['schedule']],
  ['ask-owner', ['ask']],
  ['close-visit', ['close']],
  ['cancel-visit', ['cancel']],
];

/** The buttons of which something would come for this person now. */
function openActs(visit: Visit, { facts }: Context): ActId[] {
  return DEEDS.filter(([, deeds]) => deeds.some((deed) => 'to' in outcomeFor(visit, deed, facts))).map(
    ([act]) => act,
  );
}

/** The brief of a visit as the person who opens it is to see it. */
export function openedBrief(found: Found, context: Context): Pick<Move, 'says'> & { sends: Send[] } {
  const { visit } = found;
  return {
    says: [briefSay(visit, caseBehind(found, context.facts), openActs(visit, context))],
    sends: codeFor(found, context),
  };
}

/** Opens the visit chosen and leaves the list open beneath it. */
export function answerVisitList(flow: ListFlow, event: Understood, context: Context): Move | undefined {
  const given = permit({ flow: 'visit-list' }, flow.company, context.facts);
  if (given === undefined || event.kind !== 'answer') return undefined;
  if (event.option === 'done') return { flow: flow.then };
  const visit = listed(flow, given, context).find(({ id }) => id === event.option);
  if (visit !== undefined && flow.list === 'close')
    return closeChosen({ given, visit }, flow.said, flow.then, context);
  return visit && { flow, ...openedBrief({ given, visit }, context), aside: true };
}
