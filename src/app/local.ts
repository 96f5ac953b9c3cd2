/** The conversation of a person at this machine, for the terminal and the JSONL channel. */
import { readFileSync, statSync } from 'node:fs';
import { basename } from 'node:path';
import { PA_PER_INHG, PA_PER_PSI } from '../calc/units.ts';
import type { LocalTalk } from '../channels/local-talk.ts';
import type { Locale } from '../dialogues/event.ts';
import type { Body, Message } from '../dialogues/message.ts';
import { translate } from '../language/texts.ts';
import type { Store } from '../store/store.ts';
import { attachmentsOf } from './attachments.ts';
import type { Bot } from './bot.ts';
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

/** What a file holds; undefined where it cannot be read or is too large to be taken. */
function contentOf(path: string): Uint8Array | undefined {
  try {
    return statSync(path).size > LARGEST_FILE ? undefined : readFileSync(path);
  } catch {
    return undefined;
  }
}

/** Talks with the bot as the one local person. */
export function localTalk(
  bot: Bot,
  store: Store,
  now: () => number,
  freshId: () => string,
  locale: Locale | undefined,
): LocalTalk {
  const spoken = (): Locale => store.load(CONVERSATION, PERSON).state?.locale ?? locale ?? 'en';
  const deliver = (): Message[] =>
    store.undelivered(CONVERSATION).map(({ id, message }) => {
      store.delivered(id, now());
      return message;
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

/** Gives a person nobody has heard of yet the demo pool: an invented one with clean readings on record. */
export function withDemoPool(store: Store, now: () => number): void {
  const { version, pools } = store.load(CONVERSATION, PERSON);
  if (version > 0 || pools.length > 0) return;
  store.seed(PERSON, DEMO_POOL, now());
}
