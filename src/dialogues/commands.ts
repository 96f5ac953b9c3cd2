/** Words that work at any moment. */
import { explained } from '../engine/explain.ts';
import { backInCalculation, calculation } from './calculators/calculate.ts';
import { CALCULATORS } from './calculators/fields.ts';
import { suspectLine } from './brief.ts';
import { caseOf } from './case-view.ts';
import { answerCompanyCommand } from './company/commands.ts';
import { openLink } from './company/join.ts';
import { isInviting } from './company/link.ts';
import { companyHelp, privacy } from './company/privacy.ts';
import { resumed, takeBack } from './consult.ts';
import type { Context, Flow, Move } from './conversation.ts';
import { currentPool, poolOrFresh } from './conversation.ts';
import { estimatesOf } from './estimates.ts';
import { ended } from './ending.ts';
import type { CommandId, Understood } from './event.ts';
import { openCase } from './open-case.ts';
import { history, poolCalled } from './pools.ts';
import { readingRound } from './readings.ts';
import { backInSetup } from './setup.ts';
import type { FullCase, RecordChange } from './record.ts';
import { info, question, text } from './say.ts';
import type { Say } from './say.ts';
import { NO, YES } from './words.ts';
import { zoneSaid } from './zone.ts';

const SUSPECTS_EXPLAINED = 4;
const HOME: Flow = { at: 'complaint' };

/**
 * The flow to return to after a detour; a detour from a detour returns to where the first one began. The questions of
 * the introduction are no detour: they are still to be answered.
 */
export function returnTo(flow: Flow): Flow {
  return 'then' in flow && flow.at !== 'language' && flow.at !== 'role' ? returnTo(flow.then) : flow;
}

function say(context: Context, ...says: Say[]): Move {
  return { flow: context.conversation.flow, says };
}

function consultOf(flow: Flow): Extract<Flow, { at: 'consult' }> | undefined {
  const within = returnTo(flow);
  return within.at === 'consult' ? within : undefined;
}

function why(context: Context): Move {
  const consult = consultOf(context.conversation.flow);
  const open = consult && openCase(consult, context);
  if (open === undefined) return say(context, info('why', text('dialogue:why.nothing')));
  const suspects = explained(caseOf(open.pool, open.record), SUSPECTS_EXPLAINED);
  return say(context, info('why', text('dialogue:why.head'), ...suspects.map(suspectLine)));
}

function estimated(context: Context): Say {
  const pool = currentPool(context);
  if (pool === undefined) return info('estimates', text('dialogue:estimates.nothing-known'));
  const consult = consultOf(context.conversation.flow);
  const open = consult && openCase(consult, context);
  return estimatesOf(pool, context.facts.now, open && caseOf(open.pool, open.record));
}

function stop(context: Context): Move {
  const consult = consultOf(context.conversation.flow);
  const open = consult && openCase(consult, context);
  if (open !== undefined) return ended(open, [], 'stopped', context);
  return { flow: HOME, says: [info('stopped', text('dialogue:stopped'))], quiet: true };
}

/** Ends a case without a word of its end, save what has to be known for safety, and asks on. */
function quietlyStopped(open: FullCase, context: Context): Move {
  const end = ended(open, [], 'stopped', context);
  return { ...end, says: (end.says ?? []).filter(({ id }) => id === 'restart-swimmers'), quiet: false };
}

function back(context: Context): Move {
  const { flow } = context.conversation;
  const nothing = say(context, info('nothing-to-undo', text('dialogue:nothing-to-undo')));
  if (flow.at === 'calculate') return backInCalculation(flow);
  if (flow.at === 'profile') return backInSetup(flow, context) ?? nothing;
  if (flow.at === 'consult') {
    const open = openCase(flow, context);
    if (open === undefined) return nothing;
    return takeBack(open, context) ?? quietlyStopped(open, context);
  }
  return 'then' in flow ? { flow: flow.then } : nothing;
}

function newProblem(context: Context): Move {
  const consult = consultOf(context.conversation.flow);
  const open = consult && openCase(consult, context);
  if (open === undefined) return { flow: HOME };
  return { ...ended(open, [], 'stopped', context), quiet: false };
}

/** Spoken replies on or off; without a word which of them, how to say so. */
function voice(wanted: string | undefined, context: Context): Move {
  if (wanted !== 'on' && wanted !== 'off') return say(context, info('voice', text('dialogue:voice.how')));
  const changes: RecordChange[] = [{ do: 'set-person', spoken: wanted === 'on' }];
  return { ...say(context, info('voice', text(`dialogue:voice.${wanted}`))), changes };
}

/** Answers a command; undefined where it belongs to the question that is open (skip, unsure). */
export function answerCommand(
  command: Extract<Understood, { kind: 'command' }>,
  context: Context,
): Move | undefined {
  const then = returnTo(context.conversation.flow);
  const calculator = CALCULATORS.find((id) => id === command.id);
  if (calculator !== undefined) return calculation(calculator, command.argument ?? '', then);
  const simple: Partial<Record<CommandId, () => Move>> = {
    start: () => start(command.argument ?? '', context),
    repeat: () => ({ flow: context.conversation.flow }),
    help: () =>
      say(
        context,
        info(
          'help',
          text('dialogue:help.head'),
          text('dialogue:help.words'),
          text('calculators:help'),
          text('afterwards:zone.help'),
          text('dialogue:help.safety'),
          ...companyHelp(context),
        ),
      ),
    privacy: () => say(context, privacy(context)),
    why: () => why(context),
    stop: () => stop(context),
    back: () => back(context),
    new: () => newProblem(context),
    voice: () => voice(command.argument, context),
    language: () => ({ flow: { at: 'language', then } }),
    history: () => say(context, history(context)),
    readings: () => readingRound(context, false, then),
    estimates: () => say(context, estimated(context)),
    erase: () => ({ flow: { at: 'erase', then } }),
    zone: () => zone(command.argument ?? '', then, context),
    pools: () => leave(then, { at: 'pools', then: HOME }),
    pool: () => pool(command.argument ?? '', then, context),
  };
  return simple[command.id]?.() ?? answerCompanyCommand(command.id, command.argument ?? '', then, context);
}

function zone(said: string, then: Flow, context: Context): Move {
  return said === '' ? { flow: { at: 'zone', then } } : zoneSaid(said, then, context);
}

function start(payload: string, context: Context): Move {
  return isInviting(payload) ? openLink(payload, context) : { flow: context.conversation.flow };
}

/** Another pool is another matter: a case that is open stays open with its pool and can be found again there. */
function leave(from: Flow, to: Flow): Move {
  return from.at === 'consult'
    ? { flow: to, says: [info('case-kept', text('dialogue:case-kept'))] }
    : { flow: to };
}

function pool(name: string, then: Flow, context: Context): Move {
  if (name !== '') {
    const called = poolCalled(name, HOME, context);
    return called ?? say(context, info('no-such-pool', text('dialogue:pool.none-called', { name })));
  }
  const { pool: current, changes } = poolOrFresh(context);
  return { flow: { at: 'edit-pool', then }, changes, set: { pool: current.id } };
}

/** Whether to erase everything. */
export function askErase(): Say[] {
  return [question('erase', text('dialogue:erase.ask'), [YES, NO])];
}

/** Answers the question whether to erase everything. */
export function answerErase(flow: Extract<Flow, { at: 'erase' }>, event: Understood): Move | undefined {
  if (event.kind !== 'answer') return undefined;
  if (event.option === 'no') return { flow: flow.then };
  if (event.option !== 'yes') return undefined;
  const says = [info('erased', text('dialogue:erase.done'))];
  return { flow: HOME, set: { pool: '' }, changes: [{ do: 'erase-person' }], says, quiet: true };
}

/** Whether a case left half way still matters. */
export function askStillOpen(): Say[] {
  return [question('still-open', text('dialogue:still-open.ask'), [YES, NO])];
}

/** Answers the question whether a case left half way still matters. */
export function answerStillOpen(
  flow: Extract<Flow, { at: 'still-open' }>,
  event: Understood,
  context: Context,
): Move | undefined {
  if (event.kind !== 'answer') return undefined;
  const open = flow.then.at === 'consult' ? openCase(flow.then, context) : undefined;
  if (open === undefined) return { flow: HOME };
  if (event.option === 'yes') return resumed(open, context);
  if (event.option !== 'no') return undefined;
  return quietlyStopped(open, context);
}
