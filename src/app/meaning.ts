/** What an update means to its conversation: an event, or a message that says why it means nothing here. */
import type { Context, Conversation } from '../dialogues/conversation.ts';
import type { Event, Locale, Understood } from '../dialogues/event.ts';
import { ACTS } from '../dialogues/event.ts';
import type { Body, Message } from '../dialogues/message.ts';
import type { Facts } from '../dialogues/record.ts';
import { openQuestion } from '../dialogues/turn.ts';
import { interpret } from '../language/interpret.ts';
import { translate } from '../language/texts.ts';
import type { Deed, InboxEntry, OutboxEntry, Press } from '../store/entries.ts';
import type { Loaded, Store } from '../store/store.ts';
import { isWithin } from './chat.ts';

/** What is to be done about an update. */
export type Meant =
  | { do: 'turn'; event: Event; chosen?: { message: number; option: number } }
  /** Say something and ask the open question again. */
  | { do: 'ask-again'; message: Message }
  /** Say something and leave the open question, with its buttons, as it is. */
  | { do: 'remark'; message: Message; deed?: Deed };

/** A message of the program itself. */
export function remark(kind: Message['kind'], id: string, locale: Locale, facts = {}): Message {
  return { kind, id, text: translate(locale, `app:${id}`, facts) };
}

function askAgain(id: string, locale: Locale, facts: Record<string, string> = {}): Meant {
  return { do: 'ask-again', message: remark('error', id, locale, facts) };
}

/** What a standing button does; undefined where the option is none. Whether the person may is judged in the turn. */
function actOf(option: string): Extract<Understood, { kind: 'act' }> | undefined {
  const [name, about] = option.split('/');
  const act = ACTS.find((known) => known === name);
  return act === undefined || about === undefined ? undefined : { kind: 'act', act, about };
}

function meaningOfChoice(option: string, conversation: Conversation, facts: Facts): Meant {
  const act = actOf(option);
  if (act !== undefined) return { do: 'turn', event: act };
  const options = openQuestion({ conversation, facts })?.say.options ?? [];
  const fits = options.some(({ id }) => id === option) || conversation.flow.at === 'complaint';
  return fits
    ? { do: 'turn', event: { kind: 'answer', option } }
    : askAgain('unknown-option', conversation.locale, { option: option.slice(0, 40) });
}

/** What a recording may have meant besides: other texts that sound alike, as far as they mean something else. */
function othersOf(texts: readonly string[], first: Understood, context: Context): Understood[] {
  const meant = texts.map((text) => interpret(text, context));
  return meant.filter(({ kind }) => kind === first.kind);
}

function meaningOfHeard(body: Extract<Body, { kind: 'heard' }>, context: Context): Meant {
  const { text, others, isSure } = body;
  if (text.trim() === '') return unheardMeant('nothing', [], context.conversation.locale);
  const meant = interpret(text, context);
  return {
    do: 'turn',
    event: { kind: 'heard', meant, others: othersOf(others, meant, context), isSure },
  };
}

/** Nothing was made out: why, and the open question again with its buttons. */
function unheardMeant(why: string, packages: readonly string[], locale: Locale): Meant {
  const text =
    packages.length > 0
      ? translate(locale, 'voice:lacking.listening', { packages: packages.join(', ') })
      : translate(locale, `voice:unheard.${why}`);
  return { do: 'ask-again', message: { kind: 'error', id: `unheard-${why}`, text } };
}

/** What a body means in a conversation. */
export function meaningOf(body: Body, conversation: Conversation, facts: Facts): Meant {
  const { locale } = conversation;
  switch (body.kind) {
    case 'voice':
      return askAgain('no-voice', locale);
    case 'heard':
      return meaningOfHeard(body, { conversation, facts });
    case 'unheard':
      return unheardMeant(body.why, body.packages ?? [], locale);
    case 'photo':
      return askAgain('no-photo', locale);
    case 'text':
      if (body.text.trim() === '') return askAgain('empty', locale);
      return { do: 'turn', event: interpret(body.text, { conversation, facts }) };
    case 'file':
      return { do: 'turn', event: { kind: 'file', upload: body.file, name: body.name } };
    case 'choose':
      return meaningOfChoice(body.option, conversation, facts);
  }
}

function unfolded(entry: OutboxEntry): Message {
  const options = (entry.message.options ?? []).map(({ id, label }) => ({ id, label }));
  return { ...entry.message, options };
}

/** Whether the button belongs to the open question of this conversation; anything else is old, foreign or forged. */
function isOpen(shown: OutboxEntry, press: Press, entry: InboxEntry, asked: number): boolean {
  if (shown.message.stands === true)
    return shown.version === press.version && isWithin(entry.conversation, shown.conversation);
  return (
    shown.conversation === entry.conversation && shown.version === press.version && press.version === asked
  );
}

/** What a pressed button means. Nothing in it is believed that the outbox does not confirm. */
export function meaningOfPress(
  press: Press,
  entry: InboxEntry,
  loaded: Loaded,
  conversation: Conversation,
  facts: Facts,
  store: Store,
): Meant {
  const query = entry.hints?.query ?? '';
  const shown = store.outbox.byId(press.message);
  const old = remark('error', 'old-button', conversation.locale);
  if (shown === undefined || !isOpen(shown, press, entry, loaded.asked))
    return { do: 'remark', message: old, deed: { as: 'notice', query } };
  if (press.choice === 'more')
    return { do: 'remark', message: unfolded(shown), deed: { as: 'unfold', of: shown.id, query } };
  const option = shown.message.options?.[press.choice];
  if (option === undefined) return { do: 'remark', message: old, deed: { as: 'notice', query } };
  const meant = meaningOfChoice(option.id, conversation, facts);
  return meant.do === 'turn' ? { ...meant, chosen: { message: shown.id, option: press.choice } } : meant;
}
