/** Whether a visit is wanted, when it suits and what to know at the gate; then the brief goes to the company. */
import { permit } from '../../access.ts';
import type { Context, Flow, Move } from '../../conversation.ts';
import type { Understood } from '../../event.ts';
import type { PoolRecord } from '../../record.ts';
import type { Option, Say } from '../../say.ts';
import { info, question, text } from '../../say.ts';
import { NO, SKIP, YES } from '../../words.ts';
import type { Permit } from '../permit.ts';
import { toOffice } from '../sends.ts';
import { contact } from '../words.ts';
import { latePlan } from './late.ts';
import type { Visit } from './visit.ts';
import { briefSay, OFFICE_ACTS, standing, stateText, SUITS } from './words.ts';

type WantedFlow = Extract<Flow, { at: 'visit-wanted' }>;

const LONGEST_NOTE = 200;
const LONGEST_CODE = 40;

/** What follows a case that ends with a visit: the question whether it is wanted, or that one is under way. */
export function visitOffer(
  pool: PoolRecord,
  oneCase: string,
  then: Flow,
  { facts }: Context,
): Move | undefined {
  const company = pool.company?.id;
  const given = company === undefined ? undefined : permit({ flow: 'visit-wanted' }, company, facts);
  if (company === undefined || given === undefined) return undefined;
  const open = facts.office.visits.openOf(given, pool.id);
  if (open !== undefined) {
    const words = text('visits:wanted.open-already', { state: stateText(open) });
    return { flow: then, says: [standing('visit-open', words, ['cancel-visit'], open.id)], quiet: true };
  }
  const nothing = { suits: '', gateNotes: '' };
  const flow = { at: 'visit-wanted', ask: 'wanted', company, pool: pool.id, case: oneCase } as const;
  return { flow: { ...flow, ...nothing, then } };
}

/** One short question after the other. */
export function askWanted({ ask, company: id }: WantedFlow, { facts }: Context): Say[] {
  const company = facts.memberships.find((one) => one.company.id === id)?.company.name ?? '';
  const words = text(`visits:wanted.ask-${ask}`, { company });
  if (ask === 'wanted') return [question('visit-wanted', words, [YES, NO])];
  const suits = SUITS.map((suit): Option => ({ id: suit, label: text(`visits:suits.${suit}`) }));
  const nothing: Option = { id: 'no', label: text(`visits:wanted.nothing`) };
  const options = ask === 'suits' ? [...suits, SKIP] : [nothing, SKIP];
  return [{ ...question(`visit-${ask}`, words, options), expects: 'note' }];
}

/** What was said in answer, empty where it was skipped; undefined where it is no answer. */
function noteIn(event: Understood, longest: number): string | undefined {
  if (event.kind === 'unclear') return event.text.trim().slice(0, longest);
  if (event.kind === 'command' && (event.id === 'skip' || event.id === 'unsure')) return '';
  if (event.kind !== 'answer') return undefined;
  return SUITS.some((suit) => suit === event.option) ? event.option : '';
}

/** The code is asked for where nobody else reads along. */
function afterGate(flow: WantedFlow, gateNotes: string, given: Permit, context: Context): Move {
  const next: WantedFlow = { ...flow, gateNotes, ask: 'code' };
  return context.facts.chat === given.company.staffChat ? opened(next, '', given, context) : { flow: next };
}

/** Goes on to the next question; after the last the brief is sent. */
export function answerWanted(flow: WantedFlow, event: Understood, context: Context): Move | undefined {
  const given = permit({ flow: 'visit-wanted' }, flow.company, context.facts);
  if (given === undefined) return undefined;
  if (flow.ask === 'wanted') {
    if (event.kind !== 'answer') return undefined;
    if (event.option === 'yes') return { flow: { ...flow, ask: 'suits' } };
    const says = [info('no-visit', text('visits:wanted.no'), contact(given.company))];
    return event.option === 'no' ? { flow: flow.then, says, quiet: true } : undefined;
  }
  const note = noteIn(event, flow.ask === 'code' ? LONGEST_CODE : LONGEST_NOTE);
  if (note === undefined) return undefined;
  if (flow.ask === 'suits') return { flow: { ...flow, suits: note, ask: 'gate' } };
  return flow.ask === 'gate' ? afterGate(flow, note, given, context) : opened(flow, note, given, context);
}

/** The visit as it is going to be on record. */
function asOpened(flow: WantedFlow, given: Permit, { facts }: Context): Visit {
  const line = facts.office.pool(given, flow.pool);
  const name = facts.pools.find(({ id }) => id === flow.pool)?.name;
  return {
    id: `${facts.freshId}-visit`,
    company: flow.company,
    pool: flow.pool,
    poolName: line?.name ?? name ?? '',
    reference: line?.reference ?? '',
    address: line?.address ?? '',
    consult: flow.case,
    state: 'new',
    technicianName: '',
    suits: flow.suits,
    gateNotes: flow.gateNotes,
    openedAt: facts.now,
  };
}

function opened(flow: WantedFlow, code: string, given: Permit, context: Context): Move {
  const { company, pool, case: oneCase, suits, gateNotes, then } = flow;
  const visit = asOpened(flow, given, context);
  const found = context.facts.office.visits.caseOf(given, pool, oneCase);
  const sends = toOffice(given, context, [briefSay(visit, found, OFFICE_ACTS)], pool);
  const told = text(sends.length === 0 ? 'visits:wanted.nobody' : 'visits:wanted.sent', {
    company: given.company.name,
    contact: contact(given.company),
  });
  return {
    flow: then,
    changes: [
      { do: 'open-visit', company, pool, case: oneCase, visit: visit.id, suits, gateNotes, code },
      latePlan('accept-late', visit.id, given.company, context.facts.now),
    ],
    says: [standing('visit-opened', told, ['cancel-visit'], visit.id)],
    sends,
    quiet: true,
  };
}
