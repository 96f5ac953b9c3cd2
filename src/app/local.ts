/** The conversation of a person at this machine, for the terminal and the JSONL channel. */
import { PA_PER_INHG, PA_PER_PSI } from '../calc/units.ts';
import type { LocalTalk } from '../channels/local-talk.ts';
import type { Locale } from '../dialogues/event.ts';
import type { Body, Message } from '../dialogues/message.ts';
import { translate } from '../language/texts.ts';
import type { Store } from '../store/store.ts';
import type { Bot } from './bot.ts';

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
  return {
    send: (body: Body) => {
      bot.receive({ channel: 'local', key: freshId(), conversation: CONVERSATION, person: PERSON, body });
      bot.work();
      return deliver();
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
