/** A conversation with the bot inside the test's own process: store in memory, a clock and ids that repeat. */
import { createBot } from '../../src/app/bot.ts';
import { localTalk } from '../../src/app/local.ts';
import type { Locale } from '../../src/dialogues/event.ts';
import type { Body, Message } from '../../src/dialogues/message.ts';
import type { PoolRecord } from '../../src/dialogues/record.ts';
import type { Role } from '../../src/knowledge/schema.ts';
import type { PoolSeed, Store } from '../../src/store/store.ts';
import { openStore } from '../../src/store/store.ts';

export const PERSON = 'local';
export const CONVERSATION = 'local';

const FIRST_MOMENT = Date.UTC(2030, 5, 1, 9);
const A_TURN_MS = 30_000;

export interface TalkOptions {
  role?: Role;
  locale?: Locale;
  /** A pool that is already on record. */
  pool?: Omit<PoolSeed, 'id'>;
  /** A store to go on with; a fresh one in memory where left out. */
  store?: Store;
}

export interface Talk {
  store: Store;
  send(body: Body): Message[];
  say(text: string): Message[];
  choose(option: string): Message[];
  state(): string;
  /** Lets time pass, in milliseconds. */
  wait(ms: number): void;
  /** The pools as they stand in the store. */
  pools(): PoolRecord[];
  close(): void;
}

/** Starts a conversation; `/start` is not sent yet. */
export function startTalk(options: TalkOptions = {}): Talk {
  const store = options.store ?? openStore(':memory:');
  let moment = FIRST_MOMENT;
  let ids = 0;
  const now = (): number => moment;
  const freshId = (): string => `id-${(ids += 1)}`;
  const bot = createBot({ store, now, freshId, locale: options.locale ?? 'en', role: options.role });
  if (options.pool !== undefined) store.seed(PERSON, { id: 'pool', ...options.pool }, moment);
  const local = localTalk(bot, store, now, freshId, options.locale);
  const send = (body: Body): Message[] => {
    moment += A_TURN_MS;
    return local.send(body);
  };
  return {
    store,
    send,
    say: (text) => send({ kind: 'text', text }),
    choose: (option) => send({ kind: 'choose', option }),
    state: () => local.state(),
    wait: (ms) => {
      moment += ms;
    },
    pools: () => store.load(CONVERSATION, PERSON).pools,
    close: () => store.close(),
  };
}
