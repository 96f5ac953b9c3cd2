/** One turn of a conversation: an event and the facts in, the next state, the changes and the messages out. Pure. */
import { DAY_MS } from '../calc/units.ts';
import type { EmergencyId } from '../knowledge/ids.ts';
import { isQuantity } from '../knowledge/ids.ts';
import { actionOf, mayAnswer, mayDo } from './access.ts';
import { answerCommand, returnTo } from './commands.ts';
import { complained, remembering, seenBefore, TAKES_TROUBLE, troubled } from './complaint.ts';
import { plannedAfter } from './company/afterwards.ts';
import { answerCompanyCommand } from './company/commands.ts';
import { revokeInvitation } from './company/invite.ts';
import { isInviting } from './company/link.ts';
import { reminderOff } from './company/reminders.ts';
import { runsIll, runsWell } from './company/still-running.ts';
import { VISIT_ACTS } from './company/visits/buttons.ts';
import { closeOne } from './company/visits/closing.ts';
import { refused } from './company/words.ts';
import { answerConfirm, askConfirm, correctable, readingBack } from './confirm.ts';
import type { Context, Conversation, Flow, Move, Send } from './conversation.ts';
import { ended } from './ending.ts';
import type { ActId, Asked, Event, Heard, Understood } from './event.ts';
import { answerFlow, askFlow } from './flows.ts';
import { openCase } from './open-case.ts';
import { loggedReadings } from './readings.ts';
import type { Facts, RecordChange } from './record.ts';
import { withChange } from './record.ts';
import type { Say } from './say.ts';
import { info, text } from './say.ts';

/** A consult left for longer than this is asked about before it goes on. */
const LEFT_ALONE_MS = DAY_MS;

export interface Turn {
  conversation: Conversation;
  changes: readonly RecordChange[];
  says: readonly Say[];
  sends: readonly Send[];
  /** The question that was open stays open, with its buttons. */
  keepsQuestion: boolean;
}

/** The flow, or where it began if its company let the person go meanwhile. */
function stillOpen(flow: Flow, facts: Facts): Flow {
  return mayAnswer(flow, facts) || !('then' in flow) ? flow : stillOpen(flow.then, facts);
}

/** What the conversation is waiting for, as messages. */
export function asking({ conversation, facts }: Context): Say[] {
  const flow = stillOpen(conversation.flow, facts);
  const context = { conversation: { ...conversation, flow }, facts };
  return flow.at === 'confirm' ? askConfirm(flow) : askFlow(flow, context);
}

/** What was read back counts from its yes on as if it had been typed where it was said. */
function confirming(
  flow: Extract<Flow, { at: 'confirm' }>,
  event: Event,
  context: Context,
): Move | undefined {
  const after = answerConfirm(flow, event);
  if (after === undefined || !('take' in after)) return after;
  return moved(after.take, { ...context, conversation: { ...context.conversation, flow: after.in } });
}

function answering(event: Understood, context: Context): Move | undefined {
  const { flow } = context.conversation;
  return flow.at === 'confirm' ? confirming(flow, event, context) : answerFlow(flow, event, context);
}

/** The innermost flow that the detours of a conversation return to. */
function ground(flow: Flow): Flow {
  return 'then' in flow ? ground(flow.then) : flow;
}

function emergency(id: EmergencyId, context: Context): Move {
  const flow = ground(context.conversation.flow);
  const open = flow.at === 'consult' ? openCase(flow, context) : undefined;
  const closed = open === undefined ? [] : (ended(open, [], 'emergency', context).changes ?? []);
  const say: Say = {
    kind: 'result',
    id,
    text: [text(`emergencies:${id}.text`), text('dialogue:emergency.after')],
    outcome: 'emergency',
  };
  return { flow: { at: 'complaint' }, changes: closed, says: [say], quiet: true };
}

/** What an event does where the open question has no use for it. */
function elsewhere(event: Understood, context: Context): Move | undefined {
  const { flow } = context.conversation;
  if (event.kind === 'readings' && (flow.at === 'complaint' || flow.at === 'profile'))
    return loggedReadings(event.readings, flow, context);
  if (event.kind === 'findings' && flow.at === 'profile') return seenBefore(event, flow, context);
  if (event.kind === 'trouble' && TAKES_TROUBLE.has(flow.at)) return troubled(event, flow, context);
  if (event.kind === 'complaint' && flow.at === 'baseline-offer') return complained(event.id, context);
  if (event.kind === 'complaint' && (flow.at === 'language' || flow.at === 'role'))
    return { flow: remembering(event.id, flow) };
  if (event.kind === 'command' && flow.at === 'complaint') return { flow };
  if (event.kind === 'command' && 'then' in flow) return { flow: flow.then };
  return undefined;
}

/** What helps whoever was not understood, by what is asked. */
function unclearWords(asked: Say | undefined): string {
  if (asked?.kind === 'caution') return 'dialogue:unclear-caution';
  if (asked?.kind === 'repair') return 'dialogue:unclear-repair';
  // Where a number is wanted, the number of an answer would be taken for it.
  return asked?.expects === 'reading' ? 'dialogue:unclear-number' : 'dialogue:unclear';
}

function unclear(context: Context): Move {
  const words = text(unclearWords(asking(context).at(-1)));
  return { flow: context.conversation.flow, says: [info('unclear', words)] };
}

/** What was heard is read back first wherever it would be written down; an emergency never waits. */
function heard(event: Heard, context: Context): Move {
  const { flow } = context.conversation;
  const isReply = flow.at === 'confirm' && event.meant.kind !== 'emergency' && event.meant.kind !== 'command';
  if (isReply) return confirming(flow, event, context) ?? unclear(context);
  return readingBack(event, asking(context).at(-1), context) ?? moved(event.meant, context);
}

/** What a button does that stands for longer than a question. */
const ACT: Readonly<Record<ActId, (about: string, context: Context) => Move>> = {
  'revoke-invitation': revokeInvitation,
  'reminder-off': reminderOff,
  'runs-well': runsWell,
  'runs-ill': runsIll,
  ...VISIT_ACTS,
};

function commanded(event: Understood, context: Context): Move | undefined {
  if (event.kind === 'command') return answerCommand(event, context);
  if (event.kind !== 'file') return undefined;
  return answerCompanyCommand('import', event.upload, returnTo(context.conversation.flow), context);
}

/** A command comes first, except where any words are the answer: a pool may be called anything. */
function moved(event: Understood, context: Context): Move {
  if (event.kind === 'emergency') return emergency(event.id, context);
  const action = actionOf(event);
  if (action !== undefined && !mayDo(action, context.facts)) return refused(context);
  if (event.kind === 'act') return ACT[event.act](event.about, context);
  if (event.kind === 'closing' && context.conversation.flow.at !== 'close-visit')
    return closeOne(event.said, returnTo(context.conversation.flow), context);
  return (
    commanded(event, context) ?? answering(event, context) ?? elsewhere(event, context) ?? unclear(context)
  );
}

function comesByLink(event: Understood): boolean {
  return event.kind === 'command' && event.id === 'start' && isInviting(event.argument ?? '');
}

/** A consult left for a day is asked about before anything else, except in an emergency or where it would be lost. */
function isStale({ conversation, facts }: Context, event: Event): boolean {
  const meant = event.kind === 'heard' ? event.meant : event;
  return (
    ground(conversation.flow).at === 'consult' &&
    facts.now - conversation.heardAt > LEFT_ALONE_MS &&
    meant.kind !== 'emergency' &&
    meant.kind !== 'act' &&
    !comesByLink(meant)
  );
}

function arrived(conversation: Conversation, move: Move, facts: Facts): Turn {
  const changes = move.changes ?? [];
  const next: Conversation = { ...conversation, ...move.set, flow: move.flow, heardAt: facts.now };
  const after = { conversation: next, facts: changes.reduce(withChange, facts) };
  if (next.flow.at === 'complaint' && next.flow.said !== undefined) {
    const goesOn = arrived(next, complained(next.flow.said, after, next.flow.found), after.facts);
    return {
      ...goesOn,
      changes: [...changes, ...goesOn.changes],
      says: [...(move.says ?? []), ...goesOn.says],
      sends: [...(move.sends ?? []), ...goesOn.sends],
    };
  }
  const isAside = move.aside === true;
  const asks = move.quiet === true || isAside ? [] : asking(after);
  const says = [...(move.says ?? []), ...asks];
  return { conversation: next, changes, says, sends: move.sends ?? [], keepsQuestion: isAside };
}

/** One turn. */
export function turn(before: Conversation, event: Event, facts: Facts): Turn {
  const conversation = { ...before, flow: stillOpen(before.flow, facts) };
  const context = { conversation, facts };
  const live = (): Move => (event.kind === 'heard' ? heard(event, context) : moved(event, context));
  const move: Move = isStale(context, event)
    ? { flow: { at: 'still-open', then: ground(conversation.flow) } }
    : live();
  const came = arrived(conversation, move, facts);
  const later = plannedAfter(came.changes, came.changes.reduce(withChange, facts));
  return later.length === 0 ? came : { ...came, changes: [...came.changes, ...later] };
}

/** What a message in this conversation is to be understood against; labels are filled in by the language layer. */
export function openQuestion(context: Context): { say: Say; reading?: Asked['reading'] } | undefined {
  const flow = stillOpen(context.conversation.flow, context.facts);
  const say = asking(context).at(-1);
  if (say === undefined) return undefined;
  if (flow.at === 'doubt') return { say, reading: flow.quantity };
  if (flow.at === 'confirm') {
    const reading = correctable(flow);
    return reading === undefined ? { say } : { say, reading };
  }
  if (flow.at === 'gauge') {
    const quantity = flow.quantities[flow.asked];
    return quantity === undefined ? { say } : { say, reading: quantity };
  }
  if (flow.at === 'consult' && say.expects === 'reading') {
    const prompt = flow.prompt;
    if (prompt.kind === 'check' && isQuantity(prompt.check)) return { say, reading: prompt.check };
  }
  return { say };
}
