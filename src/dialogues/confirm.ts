/** Reading back what was heard: a yes takes it, a no offers what else it may have been, other values correct it. */
import type { Confirmable, Confirmed, Reply, Unconfirmed } from './confirmation.ts';
import { afterReply, readingsOf, toConfirm } from './confirmation.ts';
import type { Context, Flow, Move } from './conversation.ts';
import { currentPool } from './conversation.ts';
import type { Event, Heard, Measured, SaidClosing, SpokenReading, Understood } from './event.ts';
import { cleanBaseline } from './record.ts';
import type { Option, Say, Text } from './say.ts';
import { info, question, text } from './say.ts';
import { faultName, finding, NO, YES } from './words.ts';

type ConfirmFlow = Extract<Flow, { at: 'confirm' }>;

/** Flows in which an option chosen is a value that is written down, or cannot be undone. */
const ALWAYS_CONFIRMED: ReadonlySet<Flow['at']> = new Set([
  'doubt',
  'erase',
  'edit-equipment',
  'join',
  'leave',
  'remove-person',
  'import',
  'invitations',
]);

/** Where any words are the answer. */
const WORDS_EXPECTED = ['name', 'amount', 'note', 'closing'] as const satisfies readonly Say['expects'][];

function readingText({ quantity, value, unit, earlier, unsteady }: SpokenReading): Text {
  const name = quantity === 'flow' ? text('dialogue:confirm.flow') : text(`checks:${quantity}.name`);
  const shown = { measure: value, unit, digits: 2 };
  const how = earlier === true ? 'earlier' : unsteady === true ? 'unsteady' : 'now';
  const isShort = Math.abs(value) < 10 && Number.isInteger(value);
  const told = isShort
    ? text('dialogue:confirm.short', { value: shown })
    : text('dialogue:confirm.apart', { apart: { apart: value }, value: shown });
  return text(`dialogue:confirm.${how}`, { name, told });
}

/** What was said of a visit that is done. */
function closingTexts({ causes: [cause], isRepaired, parts, minutes, readings }: SaidClosing): Text[] {
  return [
    ...(cause === undefined ? [] : [faultName(cause)]),
    ...(isRepaired === false ? [text('visits:closing.not-repaired')] : []),
    ...(parts === undefined || parts === '' ? [] : [text('dialogue:confirm.words', { words: parts })]),
    ...(minutes === undefined ? [] : [text('visits:closing.minutes', { minutes })]),
    ...readings.map(readingText),
  ];
}

function saidBack(meant: Confirmable): Text[] {
  switch (meant.kind) {
    case 'readings':
      return meant.readings.map(readingText);
    case 'findings':
      return [
        ...(meant.result === undefined ? [] : [text(`dialogue:repair.${meant.result}`)]),
        ...meant.readings.map(readingText),
        ...meant.findings.map(finding),
      ];
    case 'trouble':
      return [
        text(`complaints:${meant.complaint}.label`),
        ...meant.readings.map(readingText),
        ...meant.findings.map(finding),
      ];
    case 'closing':
      return closingTexts(meant.said);
    case 'answer':
      return [meant.label];
    case 'unclear':
      return [text('dialogue:confirm.words', { words: meant.text })];
  }
}

/** The question whether something was heard rightly. */
export function askConfirm({ unconfirmed }: ConfirmFlow): Say[] {
  const heard = saidBack(unconfirmed.meant);
  return [question('read-back', text('dialogue:confirm.ask', { heard }), [YES, NO])];
}

/** The quantity that a bare number would correct: none where several were heard. */
export function correctable({ unconfirmed }: ConfirmFlow): Measured | undefined {
  const quantities = new Set(readingsOf(unconfirmed.meant).map(({ quantity }) => quantity));
  const [only] = quantities;
  return quantities.size === 1 ? only : undefined;
}

function confirmable(meant: Understood, options: readonly Option[]): Confirmable[] {
  switch (meant.kind) {
    case 'readings':
    case 'findings':
    case 'trouble':
    case 'closing':
    case 'unclear':
      return [meant];
    case 'answer': {
      const label = options.find(({ id }) => id === meant.option)?.label;
      return label === undefined ? [] : [{ ...meant, label }];
    }
    case 'emergency':
    case 'command':
    case 'complaint':
    case 'act':
    case 'file':
      return [];
  }
}

/** Whether something heard is to be read back before it counts. */
function wantsConfirming({ meant, isSure }: Heard, flow: Flow, asked: Say | undefined): boolean {
  switch (meant.kind) {
    case 'readings':
    case 'findings':
    case 'trouble':
    case 'closing':
      return true;
    case 'unclear':
      return WORDS_EXPECTED.some((expected) => asked?.expects === expected);
    case 'answer':
      return !isSure || ALWAYS_CONFIRMED.has(flow.at);
    case 'emergency':
    case 'command':
    case 'complaint':
    case 'act':
    case 'file':
      return false;
  }
}

/** The question that reads back what was heard; undefined where it may count at once. `asked`: the open question. */
export function readingBack(heard: Heard, asked: Say | undefined, context: Context): Move | undefined {
  const { flow } = context.conversation;
  if (!wantsConfirming(heard, flow, asked)) return undefined;
  const options = asked?.options ?? [];
  const [meant] = confirmable(heard.meant, options);
  if (meant === undefined) return undefined;
  const others = heard.others
    .filter((other) => wantsConfirming({ ...heard, meant: other, isSure: false }, flow, asked))
    .flatMap((other) => confirmable(other, options));
  const pool = currentPool(context);
  const clean = pool === undefined ? {} : cleanBaseline(pool);
  return { flow: { at: 'confirm', unconfirmed: toConfirm(meant, others, clean), then: flow } };
}

function replyIn(event: Understood, isHeard: boolean): Reply | undefined {
  if (event.kind === 'readings') return { kind: 'readings', readings: event.readings, typed: !isHeard };
  if (event.kind !== 'answer') return undefined;
  if (event.option === 'yes') return { kind: 'yes' };
  return event.option === 'no' ? { kind: 'no' } : undefined;
}

/** What follows from an answer to the read-back. */
export type AfterConfirm = { take: Understood; in: Flow } | Move;

function moveFor(confirmed: Confirmed, then: Flow): AfterConfirm {
  switch (confirmed.do) {
    case 'take':
      return { take: confirmed.meant, in: then };
    case 'read-back':
      return { flow: { at: 'confirm', unconfirmed: confirmed.unconfirmed, then } };
    case 'ask-again':
      return { flow: then, says: [info('not-noted', text('dialogue:confirm.again'))] };
  }
}

/**
 * Answers the read-back. A short "yes" counts even where it was made out in noise: what it confirms was heard before
 * and shown. Words typed where words were heard are the answer themselves.
 */
export function answerConfirm({ unconfirmed, then }: ConfirmFlow, event: Event): AfterConfirm | undefined {
  const [said, isHeard] = event.kind === 'heard' ? [event.meant, true] : [event, false];
  const reply = replyIn(said, isHeard);
  if (reply !== undefined) return moveFor(afterReply(unconfirmed, reply), then);
  if (said.kind !== 'unclear' || unconfirmed.meant.kind !== 'unclear') return undefined;
  if (!isHeard) return { take: said, in: then };
  const again: Unconfirmed = { meant: said, others: [] };
  return { flow: { at: 'confirm', unconfirmed: again, then } };
}
