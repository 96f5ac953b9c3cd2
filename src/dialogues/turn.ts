/** One turn of a conversation: an event and the facts in, the next state, the changes and the messages out. Pure. */
import type { ComplaintId, EmergencyId } from '../knowledge/ids.ts';
import { isQuantity } from '../knowledge/ids.ts';
import { answerCalculate, askCalculate } from './calculators/calculate.ts';
import { actionOf, mayAnswer, mayDo } from './access.ts';
import { answerCommand, answerErase, answerStillOpen, askErase, askStillOpen, returnTo } from './commands.ts';
import { answerComplaint, askComplaint, complained } from './complaint.ts';
import { answerConsult, askConsult, ended, openCase } from './consult.ts';
import { sentFile } from './company/import.ts';
import { answerCompanyFlow, askCompanyFlow } from './company/flows.ts';
import { revokeInvitation } from './company/invite.ts';
import { isInviting } from './company/link.ts';
import { plannedAfter } from './company/afterwards.ts';
import { reminderOff } from './company/reminders.ts';
import { runsIll, runsWell } from './company/still-running.ts';
import { VISIT_ACTS } from './company/visits/buttons.ts';
import { closeOne } from './company/visits/closing.ts';
import { refused } from './company/words.ts';
import { answerConfirm, askConfirm, correctable, readingBack } from './confirm.ts';
import type { Context, Conversation, Flow, Move, Send } from './conversation.ts';
import { answerDoubt } from './doubt.ts';
import type { ActId, Asked, Event, Heard, Understood } from './event.ts';
import { answerLanguage, answerRole, askLanguage, askRole } from './introduce.ts';
import { answerPoolName, answerPools, askPoolName, askPools } from './pools.ts';
import { answerEditEquipment, answerEditPool, askEditEquipment, askEditPool } from './profile.ts';
import {
  answerBaselineOffer,
  answerGauge,
  askBaselineOffer,
  askDoubt,
  askGauge,
  loggedReadings,
} from './readings.ts';
import type { Facts, RecordChange } from './record.ts';
import { withChange } from './record.ts';
import type { Say } from './say.ts';
import { info, text } from './say.ts';
import { answerSetup, askSetup } from './setup.ts';
import { answerZone, askZone } from './zone.ts';

/** A consult left for longer than this is asked about before it goes on. */
const A_DAY = 24 * 60 * 60 * 1000;

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
  switch (flow.at) {
    case 'language':
      return askLanguage();
    case 'role':
      return askRole();
    case 'complaint':
      return askComplaint(context);
    case 'profile':
      return askSetup(flow);
    case 'edit-pool':
      return askEditPool(context);
    case 'edit-equipment':
      return askEditEquipment(flow);
    case 'consult':
      return askConsult(flow, context);
    case 'still-open':
      return askStillOpen();
    case 'baseline-offer':
      return askBaselineOffer();
    case 'gauge':
      return askGauge(flow);
    case 'doubt':
      return askDoubt(flow);
    case 'confirm':
      return askConfirm(flow);
    case 'pools':
      return askPools(context);
    case 'pool-name':
      return askPoolName();
    case 'erase':
      return askErase();
    case 'calculate':
      return askCalculate(flow);
    case 'zone':
      return askZone();
    default:
      return askCompanyFlow(flow, context);
  }
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
  switch (flow.at) {
    case 'confirm':
      return confirming(flow, event, context);
    case 'language':
      return answerLanguage(flow, event);
    case 'role':
      return answerRole(flow, event);
    case 'complaint':
      return answerComplaint(event, context);
    case 'profile':
      return answerSetup(flow, event, context);
    case 'edit-pool':
      return answerEditPool(flow, event);
    case 'edit-equipment':
      return answerEditEquipment(flow, event, context);
    case 'consult':
      return answerConsult(flow, event, context);
    case 'still-open':
      return answerStillOpen(flow, event, context);
    case 'baseline-offer':
      return answerBaselineOffer(event, context);
    case 'gauge':
      return answerGauge(flow, event, context);
    case 'doubt':
      return answerDoubt(flow, event, context);
    case 'pools':
      return answerPools(flow, event, context);
    case 'pool-name':
      return answerPoolName(flow, event, context);
    case 'erase':
      return answerErase(flow, event);
    case 'calculate':
      return answerCalculate(flow, event);
    case 'zone':
      return answerZone(flow, event, context);
    default:
      return answerCompanyFlow(flow, event, context);
  }
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

/** The flow with a complaint at its end that is taken up as soon as the questions before it are answered. */
function remembering(said: ComplaintId, flow: Flow): Flow {
  return 'then' in flow ? { ...flow, then: remembering(said, flow.then) } : { at: 'complaint', said };
}

/** What an event does where the open question has no use for it. */
function elsewhere(event: Understood, context: Context): Move | undefined {
  const { flow } = context.conversation;
  const read = event.kind === 'readings' || event.kind === 'findings';
  if (read && (flow.at === 'complaint' || flow.at === 'profile'))
    return loggedReadings(event.readings, flow, context);
  if (event.kind === 'complaint' && flow.at === 'baseline-offer') return complained(event.id, context);
  if (event.kind === 'complaint' && (flow.at === 'language' || flow.at === 'role'))
    return { flow: remembering(event.id, flow) };
  if (event.kind === 'command' && flow.at === 'complaint') return { flow };
  if (event.kind === 'command' && 'then' in flow) return { flow: flow.then };
  return undefined;
}

function unclear(context: Context): Move {
  return { flow: context.conversation.flow, says: [info('unclear', text('dialogue:unclear'))] };
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

/** A command comes first, except where any words are the answer: a pool may be called anything. */
function moved(event: Understood, context: Context): Move {
  if (event.kind === 'emergency') return emergency(event.id, context);
  const action = actionOf(event);
  if (action !== undefined && !mayDo(action, context.facts)) return refused(context);
  if (event.kind === 'act') return ACT[event.act](event.about, context);
  if (event.kind === 'closing' && context.conversation.flow.at !== 'close-visit')
    return closeOne(event.said, returnTo(context.conversation.flow), context);
  if (event.kind === 'file') return sentFile(event, returnTo(context.conversation.flow), context);
  const command = event.kind === 'command' ? answerCommand(event, context) : undefined;
  return command ?? answering(event, context) ?? elsewhere(event, context) ?? unclear(context);
}

function comesByLink(event: Understood): boolean {
  return event.kind === 'command' && event.id === 'start' && isInviting(event.argument ?? '');
}

/** A consult left for a day is asked about before anything else, except in an emergency or where it would be lost. */
function isStale({ conversation, facts }: Context, event: Event): boolean {
  const meant = event.kind === 'heard' ? event.meant : event;
  return (
    ground(conversation.flow).at === 'consult' &&
    facts.now - conversation.heardAt > A_DAY &&
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
    const goesOn = arrived(next, complained(next.flow.said, after), after.facts);
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
