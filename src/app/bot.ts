/** The turn around the pure core: load, understand, reduce, render, commit, deliver. */
import type { Logger } from 'pino';
import type { Conversation, Flow } from '../dialogues/conversation.ts';
import { newConversation, STATE_VERSION } from '../dialogues/conversation.ts';
import type { Locale, Understood } from '../dialogues/event.ts';
import type { Body, Message } from '../dialogues/message.ts';
import type { Facts } from '../dialogues/record.ts';
import type { Say } from '../dialogues/say.ts';
import { asking, openQuestion, turn } from '../dialogues/turn.ts';
import { interpret } from '../language/interpret.ts';
import { rendered } from '../language/render.ts';
import { translate } from '../language/texts.ts';
import type { Role } from '../knowledge/schema.ts';
import { StoreUnusable } from '../store/database.ts';
import type { InboxEntry, Incoming, Loaded, Store } from '../store/store.ts';

export interface BotParts {
  store: Store;
  now: () => number;
  freshId: () => string;
  log?: Logger;
  /** Taken as given, so that they are not asked for. */
  locale?: Locale | undefined;
  role?: Role | undefined;
}

export interface Bot {
  /** Puts an update into the inbox. */
  receive(update: Incoming): void;
  /** Handles every update that waits. */
  work(): void;
  /** What the conversation is waiting for. */
  stateOf(conversation: string, person: string): Flow['at'];
}

const GROUP = 50;
const TRIES = 5;

/** Nobody has spoken yet: the questions that are not answered by the configuration come first. */
function firstFlow(parts: BotParts): Flow {
  const home: Flow = { at: 'complaint' };
  const role: Flow = parts.role === undefined ? { at: 'role', then: home } : home;
  return parts.locale === undefined ? { at: 'language', then: role } : role;
}

/** The stored state, or a fresh one where there is none or it is of a version not known; the record is kept. */
function stateOf(loaded: Loaded, parts: BotParts): Conversation {
  if (loaded.state !== undefined && Number(loaded.state.version) === STATE_VERSION) return loaded.state;
  const locale = parts.locale ?? loaded.locale ?? 'en';
  const state = newConversation(locale, parts.role ?? loaded.role ?? 'owner', firstFlow(parts));
  return { ...state, pool: loaded.pools[0]?.id ?? '' };
}

function errorMessage(id: string, locale: Locale, facts: Record<string, string> = {}): Message {
  return { kind: 'error', id, text: translate(locale, `app:${id}`, facts) };
}

/** What a body means, or the message that says why it means nothing here. */
function meaning(body: Body, conversation: Conversation, facts: Facts): Understood | Message {
  const { locale } = conversation;
  switch (body.kind) {
    case 'voice':
      return errorMessage('no-voice', locale);
    case 'photo':
      return errorMessage('no-photo', locale);
    case 'text':
      if (body.text.trim() === '') return errorMessage('empty', locale);
      return interpret(body.text, { conversation, facts });
    case 'choose': {
      const options = openQuestion({ conversation, facts })?.say.options ?? [];
      const fits = options.some(({ id }) => id === body.option) || conversation.flow.at === 'complaint';
      return fits
        ? { kind: 'answer', option: body.option }
        : errorMessage('unknown-option', locale, { option: body.option.slice(0, 40) });
    }
  }
}

function isMessage(meant: Understood | Message): meant is Message {
  return meant.kind === 'error';
}

function inWords(says: readonly Say[], locale: Locale): Message[] {
  return says.map((say) => rendered(say, locale));
}

/** Handles one update; false where the conversation moved meanwhile. */
function handled(entry: InboxEntry, parts: BotParts): boolean {
  const { store, now, freshId } = parts;
  const loaded = store.load(entry.conversation, entry.person);
  const before = stateOf(loaded, parts);
  const facts: Facts = { now: now(), freshId: freshId(), pools: loaded.pools };
  const meant = meaning(entry.body, before, facts);
  const commit = { entry, version: loaded.version, at: facts.now };
  if (isMessage(meant)) {
    const again = inWords(asking({ conversation: before, facts }), before.locale);
    return store.commit({ ...commit, state: before, changes: [], messages: [meant, ...again] });
  }
  const { conversation, changes, says } = turn(before, meant, facts);
  return store.commit({
    ...commit,
    state: conversation,
    changes,
    messages: inWords(says, conversation.locale),
  });
}

/** The boundary of a turn: a bug is logged and apologised for, the state stays; an unusable store ends the program. */
function handleSafely(entry: InboxEntry, parts: BotParts): void {
  try {
    for (let attempt = 0; attempt < TRIES; attempt += 1) if (handled(entry, parts)) return;
    throw new Error('The conversation kept moving while its turn was run');
  } catch (error) {
    if (error instanceof StoreUnusable) throw error;
    parts.log?.error({ update: entry.id, channel: entry.channel, error }, 'turn failed');
    const locale = parts.store.load(entry.conversation, entry.person).state?.locale ?? parts.locale ?? 'en';
    parts.store.setAside(entry, [errorMessage('internal', locale)], parts.now());
  }
}

/** A bot on a store. */
export function createBot(parts: BotParts): Bot {
  return {
    receive: (update) => parts.store.receive([update], parts.now()),
    work: () => {
      for (let group = parts.store.waiting(GROUP); group.length > 0; group = parts.store.waiting(GROUP))
        for (const entry of group) handleSafely(entry, parts);
    },
    stateOf: (conversation, person) => stateOf(parts.store.load(conversation, person), parts).flow.at,
  };
}
