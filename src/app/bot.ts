/** The turn around the pure core: load, understand, reduce, render, commit. */
import { randomBytes } from 'node:crypto';
import type { Logger } from 'pino';
import type { Conversation, Flow } from '../dialogues/conversation.ts';
import { newConversation, STATE_VERSION } from '../dialogues/conversation.ts';
import type { Asked, Locale } from '../dialogues/event.ts';
import type { Facts } from '../dialogues/record.ts';
import { asking, turn } from '../dialogues/turn.ts';
import { askedIn } from '../language/interpret.ts';
import { translate } from '../language/texts.ts';
import type { Role } from '../knowledge/schema.ts';
import { spokenTurn } from '../media/spoken-words.ts';
import { StoreUnusable } from '../store/database.ts';
import type { PhotoNote } from '../store/entries.ts';
import type { Commit, InboxEntry, Incoming, Letter, Loaded, Store } from '../store/store.ts';
import { sharedChat } from './chat.ts';
import { inWords, lettersOf } from './letters.ts';
import type { Links } from './links.ts';
import { linksTo } from './links.ts';
import { errorFacts } from './log.ts';
import type { Meant } from './meaning.ts';
import { meaningOf, meaningOfPress, remark } from './meaning.ts';

export interface BotParts {
  store: Store;
  now: () => number;
  freshId: () => string;
  /** Where links lead that are given out; without an address where left out. */
  links?: Links;
  log?: Logger;
  /** Names a conversation in the log. */
  hash?: (conversation: string) => string;
  /** Taken as given, so that they are not asked for. */
  locale?: Locale | undefined;
  role?: Role | undefined;
  /** Somebody had all that is theirs erased. */
  onErased?: (person: string) => void;
}

export interface Bot {
  /** Puts an update into the inbox. */
  receive(update: Incoming): void;
  /** Handles every update that waits. */
  work(): void;
  /** Handles the next few updates in one transaction and says what came of each; none where nothing is due. */
  workGroup(): Worked[];
  /** What the conversation is waiting for. */
  stateOf(conversation: string, person: string): Flow['at'];
  /** What a recording in this conversation is to be listened to with: its language and the open question. */
  listeningFor(conversation: string, person: string): { locale: Locale; asked: Asked | undefined };
}

/** An update that was handled. */
export interface Worked {
  entry: InboxEntry;
  came: Meant['do'] | 'failed';
  /** Other conversations that something was said in. */
  wakes: readonly string[];
  /** How long the turn took, milliseconds. */
  ms: number;
}

/** Large enough to share the disk's flush, small enough to keep nobody waiting: a turn takes a few milliseconds. */
const GROUP = 20;
const TRIES = 5;

/** Nobody has spoken yet: the questions that are not answered by the configuration come first. */
function firstFlow(parts: BotParts, locale: Locale | undefined): Flow {
  const home: Flow = { at: 'complaint' };
  const role: Flow = parts.role === undefined ? { at: 'role', then: home } : home;
  return locale === undefined ? { at: 'language', then: role } : role;
}

/** The stored state, or a fresh one where there is none or it is of a version not known; the record is kept. */
function stateOf(loaded: Loaded, parts: BotParts, setting?: Locale): Conversation {
  // What is stored may have been written by another version, whatever its type says here.
  const stored: (Omit<Conversation, 'version'> & { version: number }) | undefined = loaded.state;
  if (loaded.state !== undefined && stored?.version === STATE_VERSION) return loaded.state;
  const given = parts.locale ?? setting;
  const locale = given ?? loaded.locale ?? 'en';
  const state = newConversation(locale, parts.role ?? loaded.role ?? 'owner', firstFlow(parts, given));
  return { ...state, pool: loaded.pools[0]?.id ?? '' };
}

/** The photo of an update with the step it answers. */
function photoOf({ hints }: InboxEntry, { flow }: Conversation): PhotoNote | undefined {
  if (hints?.photo === undefined) return undefined;
  if (flow.at !== 'consult') return { file: hints.photo, step: flow.at };
  const { prompt } = flow;
  const step =
    prompt.kind === 'check' ? prompt.check : prompt.kind === 'repair' ? prompt.fault : prompt.caution;
  return { file: hints.photo, consult: flow.case, step };
}

function meaning(entry: InboxEntry, loaded: Loaded, before: Conversation, facts: Facts, store: Store): Meant {
  const { body, hints } = entry;
  if (hints?.press !== undefined) return meaningOfPress(hints.press, entry, loaded, before, facts, store);
  // Where nothing has been asked yet, the first question follows.
  const how = loaded.state === undefined ? 'ask-again' : 'remark';
  if (hints?.tooBig === true)
    return { do: how, message: remark('error', `${body.kind}-too-big`, before.locale) };
  if (body.kind === 'file' && body.file === '')
    return { do: how, message: remark('error', 'no-file', before.locale) };
  if (body.kind === 'photo' && hints?.photo !== undefined)
    return { do: how, message: remark('info', 'photo-kept', before.locale) };
  return meaningOf(body, before, facts);
}

type Done = Pick<Commit, 'state' | 'changes' | 'messages' | 'keepsQuestion'> & { sends: Letter[] };

/** The commit that does what was meant. */
function committed(meant: Meant, before: Conversation, facts: Facts, store: Store): Done {
  switch (meant.do) {
    case 'remark':
      return { state: before, changes: [], messages: [meant.message], sends: [], keepsQuestion: true };
    case 'ask-again': {
      const again = inWords(asking({ conversation: before, facts }), before.locale);
      return {
        state: before,
        changes: [],
        messages: [meant.message, ...again],
        sends: [],
        keepsQuestion: false,
      };
    }
    case 'turn': {
      const { conversation: state, changes, says, sends, keepsQuestion } = turn(before, meant.event, facts);
      const messages = inWords(says, state.locale);
      return { state, changes, messages, sends: lettersOf(sends, store), keepsQuestion };
    }
  }
}

/** The turn as it is spoken, where the person wants that: as it was before the turn, or as it changed that. */
function spokenOf(
  { messages, changes, state }: ReturnType<typeof committed>,
  wanted: boolean,
): Pick<Commit, 'spoken'> {
  const set = changes.findLast((change) => change.do === 'set-person' && change.spoken !== undefined);
  const isWanted = set?.do === 'set-person' ? set.spoken === true : wanted;
  const isErased = changes.some((change) => change.do === 'erase-person');
  if (!isWanted || isErased) return {};
  // What carries a secret is read, not heard; and what is to be spoken is kept longer than a secret may be.
  const open = messages.filter(({ secret }) => secret !== true);
  const parts = spokenTurn(open, state.locale, translate);
  return parts.length === 0 ? {} : { spoken: parts };
}

const NO_ADDRESS = linksTo(() => undefined, randomBytes);

function factsOf(
  { conversation, person }: Pick<InboxEntry, 'conversation' | 'person'>,
  loaded: Loaded,
  parts: BotParts,
): Facts {
  const { store, freshId, links = NO_ADDRESS } = parts;
  const now = parts.now();
  const { pools, memberships } = loaded;
  const office = store.officeOf(person, now);
  return {
    now,
    freshId: freshId(),
    pools,
    person,
    chat: sharedChat(conversation),
    memberships,
    office,
    freshLink: links.fresh(),
  };
}

/** Handles one update; undefined where the conversation moved meanwhile. */
function handled(entry: InboxEntry, parts: BotParts): Worked | undefined {
  const { store } = parts;
  const began = performance.now();
  const loaded = store.load(entry.conversation, entry.person);
  const before = stateOf(loaded, parts, entry.hints?.locale);
  const facts = factsOf(entry, loaded, parts);
  const meant = meaning(entry, loaded, before, facts, store);
  const photo = photoOf(entry, before);
  const done = committed(meant, before, facts, store);
  const kept = store.commit({
    ...done,
    ...(isRemarkOnly(meant) ? {} : spokenOf(done, loaded.spoken)),
    entry,
    version: loaded.version,
    at: facts.now,
    ...(meant.do === 'remark' && meant.deed !== undefined ? { deed: meant.deed } : {}),
    ...(meant.do === 'turn' && meant.chosen !== undefined ? { chosen: meant.chosen } : {}),
    ...(photo === undefined ? {} : { photo }),
  });
  if (!kept) return undefined;
  if (done.changes.some((change) => change.do === 'erase-person')) parts.onErased?.(entry.person);
  const wakes = done.sends.map(({ conversation }) => conversation);
  const worked: Worked = { entry, came: meant.do, wakes, ms: performance.now() - began };
  logTurn(worked, done.state, parts);
  return worked;
}

/** Shown as a notice or by unfolding choices: nothing that is said. */
function isRemarkOnly(meant: Meant): boolean {
  return meant.do === 'remark' && meant.deed !== undefined;
}

/** One line a turn; never a name or a text. */
function logTurn({ entry, ms }: Worked, state: Conversation, { log, hash }: BotParts): void {
  const conversation = hash?.(entry.conversation);
  log?.info({ update: entry.key, conversation, state: state.flow.at, ms: Math.round(ms * 10) / 10 }, 'turn');
}

/** The boundary of a turn: a bug is logged and apologised for, the state stays; an unusable store ends the program. */
function handleSafely(entry: InboxEntry, parts: BotParts): Worked {
  try {
    for (let attempt = 0; attempt < TRIES; attempt += 1) {
      const worked = handled(entry, parts);
      if (worked !== undefined) return worked;
    }
    throw new Error('The conversation kept moving while its turn was run');
  } catch (error) {
    if (error instanceof StoreUnusable) throw error;
    const conversation = parts.hash?.(entry.conversation);
    parts.log?.error({ update: entry.key, conversation, ...errorFacts(error) }, 'turn failed');
    const locale = parts.store.load(entry.conversation, entry.person).state?.locale ?? parts.locale ?? 'en';
    parts.store.setAside(entry, [remark('error', 'internal', locale)], parts.now());
    return { entry, came: 'failed', wakes: [], ms: 0 };
  }
}

/** A bot on a store. */
export function createBot(parts: BotParts): Bot {
  const { store, now } = parts;
  const workGroup = (): Worked[] => {
    const group = store.waiting(GROUP, now());
    if (group.length === 0) return [];
    return store.together(() => group.map((entry) => handleSafely(entry, parts)));
  };
  return {
    receive: (update) => store.receive([update], now()),
    work: () => {
      while (workGroup().length > 0);
    },
    workGroup,
    stateOf: (conversation, person) => stateOf(store.load(conversation, person), parts).flow.at,
    listeningFor: (from, person) => {
      const loaded = store.load(from, person);
      const conversation = stateOf(loaded, parts);
      const facts = factsOf({ conversation: from, person }, loaded, parts);
      return { locale: conversation.locale, asked: askedIn({ conversation, facts }) };
    },
  };
}
