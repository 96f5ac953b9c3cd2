/** The commands of a company: first which company, where a person belongs to several, then the thing itself. */
import { permit, permits } from '../access.ts';
import type { Context, Flow, Move } from '../conversation.ts';
import type { CommandId, Understood } from '../event.ts';
import type { Option, Say } from '../say.ts';
import { info, question, text } from '../say.ts';
import { findPool } from './find.ts';
import { howToImport, previewed } from './import.ts';
import type { Permit } from './permit.ts';
import { reporting } from './report/report.ts';
import { closeOne, NOTHING_SAID } from './visits/closing.ts';
import { visitList } from './visits/lists.ts';
import { truckList } from './visits/truck.ts';
import { refused, saidAndBack } from './words.ts';

type WhichFlow = Extract<Flow, { at: 'which-company' }>;

type Run = (given: Permit, argument: string, then: Flow, context: Context) => Move;

/** Goes to a question about the company. */
const to =
  (at: 'invite' | 'invitations' | 'people' | 'company-settings' | 'leave'): Run =>
  ({ company }, _, then) => ({ flow: { at, company: company.id, then } });

const finding =
  (purpose: 'send' | 'talk'): Run =>
  (given, argument, then, context) => {
    const flow = { at: 'find-pool', company: given.company.id, purpose, text: '', then } as const;
    return argument === '' ? { flow } : findPool(flow, argument, given, context);
  };

const listing =
  (list: 'queue' | 'today'): Run =>
  (given, _, then, context) =>
    visitList(list, given, then, context);

const setStaffChat: Run = ({ company }, _, then, { facts, conversation }) => ({
  flow: conversation.flow,
  aside: true,
  changes: [{ do: 'set-staff-chat', company: company.id, chat: facts.chat, locale: conversation.locale }],
  says: [info('staff-chat', text('company:staff-chat', { company: company.name }))],
});

const exporting: Run = (given, _, then, { facts }) => {
  const count = facts.office.poolCount(given);
  const { company } = given;
  const file = { holds: 'pools', company: company.id, name: 'pools.csv' } as const;
  return saidAndBack(then, { kind: 'file', id: 'pools', text: [text('company:export', { count })], file });
};

const RUN: Partial<Record<CommandId, Run>> = {
  invite: to('invite'),
  invitations: to('invitations'),
  people: to('people'),
  company: to('company-settings'),
  leave: to('leave'),
  send: finding('send'),
  find: finding('talk'),
  staff: setStaffChat,
  export: exporting,
  report: reporting,
  queue: listing('queue'),
  today: listing('today'),
  truck: (given, _, then, context) => truckList(given, then, context),
  import: (given, argument, then, context) =>
    argument === '' ? howToImport(then) : previewed(argument, given, then, context),
};

/** Goes on with a command of a company; undefined where it is none. Who may not do it is turned away before. */
export function answerCompanyCommand(
  id: CommandId,
  argument: string,
  then: Flow,
  context: Context,
): Move | undefined {
  // A visit is of one company, whichever the person belongs to.
  if (id === 'close') return closeOne(NOTHING_SAID, then, context);
  const run = RUN[id];
  if (run === undefined) return undefined;
  const given = permits({ command: id }, context.facts);
  const [only] = given;
  if (only === undefined) return refused(context);
  if (given.length === 1) return run(only, argument, then, context);
  return { flow: { at: 'which-company', command: id, argument, then } };
}

/** Which company. */
export function askWhichCompany({ command }: WhichFlow, { facts }: Context): Say[] {
  const options = permits({ command }, facts).map(({ company }): Option => ({
    id: company.id,
    label: text('dialogue:pool.named', { name: company.name }),
  }));
  return [question('which-company', text('company:which'), options)];
}

/** Goes on with the command for the company chosen. */
export function answerWhichCompany(flow: WhichFlow, event: Understood, context: Context): Move | undefined {
  if (event.kind !== 'answer') return undefined;
  const given = permit({ command: flow.command }, event.option, context.facts);
  return given && RUN[flow.command]?.(given, flow.argument, flow.then, context);
}
