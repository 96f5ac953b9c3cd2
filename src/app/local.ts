/** The conversation of a person at this machine, for the terminal and the JSONL channel. */
import { readFileSync, statSync } from 'node:fs';
import { basename } from 'node:path';
import { PA_PER_INHG, PA_PER_PSI } from '../calc/units.ts';
import type { LocalTalk } from '../channels/local-talk.ts';
import type { Locale } from '../dialogues/event.ts';
import type { Body, Message } from '../dialogues/message.ts';
import { translate } from '../language/texts.ts';
import type { Utterance } from '../store/entries.ts';
import type { Store } from '../store/store.ts';
import { attachmentsOf } from './attachments.ts';
import type { Bot } from './bot.ts';
import { heardBody } from './listening.ts';
import { sayer } from './speaking.ts';
import { spokenFiles } from './spoken-files.ts';
import type { Voice } from './voice.ts';
import { keptFile, LARGEST_FILE, mayImport } from './files.ts';

const PERSON = 'local';
const CONVERSATION = 'local';

/** An invented pool to try the chat on. */
const DEMO_POOL = {
  id: 'demo-pool',
  name: 'Demo pool',
  equipment: {
    cleaner: 'suction',
    connection: 'skimmer',
    canister: 'yes',
    pump: 'single-speed',
    filter: 'cartridge',
  },
  clean: { 'filter-pressure': 13 * PA_PER_PSI, 'pump-vacuum': 7 * PA_PER_INHG },
} as const;

/** A talk without voice, answered at once. */
export interface DirectTalk extends Omit<LocalTalk, 'send'> {
  send(body: Body): Message[];
}

/** What a file holds; undefined where it cannot be read or is too large to be taken. */
function contentOf(path: string): Uint8Array | undefined {
  try {
    return statSync(path).size > LARGEST_FILE ? undefined : readFileSync(path);
  } catch {
    return undefined;
  }
}

/** Talks with the bot as the one local person. `onSpoken` is given what is to be said aloud. */
export function localTalk(
  bot: Bot,
  store: Store,
  now: () => number,
  freshId: () => string,
  locale: Locale | undefined,
  onSpoken?: (parts: Utterance, locale: Locale) => void,
): DirectTalk {
  const spoken = (): Locale => store.load(CONVERSATION, PERSON).state?.locale ?? locale ?? 'en';
  const deliver = (): Message[] =>
    store.undelivered(CONVERSATION).flatMap(({ id, message, deed, locale: language }) => {
      store.delivered(id, now());
      if (deed?.as !== 'spoken') return [message];
      onSpoken?.(deed.parts, language);
      return [];
    });
  const send = (body: Body): Message[] => {
    bot.receive({ channel: 'local', key: freshId(), conversation: CONVERSATION, person: PERSON, body });
    bot.work();
    return deliver();
  };
  const attachments = attachmentsOf(store);
  return {
    send,
    sendFile: (path) => {
      const content = mayImport(CONVERSATION, PERSON, store) ? contentOf(path) : undefined;
      const name = basename(path);
      return send(keptFile({ id: freshId(), person: PERSON, name, content }, store, now()));
    },
    attached: async ({ picture, file }) => {
      if (picture !== undefined) return attachments.picture(picture);
      return file === undefined ? undefined : attachments.file(file);
    },
    state: () => bot.stateOf(CONVERSATION, PERSON),
    word: (key, facts) => translate(spoken(), `app:${key}`, facts),
  };
}

/** The same with voice: recordings are listened to, and replies spoken into files where the person wants that. */
export function voicedTalk(
  bot: Bot,
  store: Store,
  now: () => number,
  freshId: () => string,
  locale: Locale | undefined,
  voice: Voice,
): LocalTalk {
  const listener = voice.listener();
  const write = spokenFiles(sayer(voice.speaker), voice.folder);
  let aloud: { parts: Utterance; locale: Locale }[] = [];
  const direct = localTalk(bot, store, now, freshId, locale, (parts, language) => {
    aloud.push({ parts, locale: language });
  });
  return {
    ...direct,
    send: async (sent) => {
      const from = { conversation: CONVERSATION, person: PERSON };
      const messages = direct.send(
        sent.kind === 'voice' ? await heardBody(sent.file, from, bot, listener) : sent,
      );
      const toSay = aloud;
      aloud = [];
      for (const { parts, locale: language } of toSay) messages.push(...(await write(parts, language)));
      return messages;
    },
  };
}

/** Gives a person nobody has heard of yet the demo pool: an invented one with clean readings on record. */
export function withDemoPool(store: Store, now: () => number): void {
  const { version, pools } = store.load(CONVERSATION, PERSON);
  if (version > 0 || pools.length > 0) return;
  store.seed(PERSON, DEMO_POOL, now());
}
