/** Serving the platform: inbox, turns and outbox tied to the channel. */
import { DAY_MS } from '../calc/units.ts';
import { randomBytes } from 'node:crypto';
import type { Logger } from 'pino';
import { downloader } from '../channels/telegram/download.ts';
import type { Journal, Post, TelegramIncoming, Timing } from '../channels/telegram/ports.ts';
import { USUAL_TIMING } from '../channels/telegram/ports.ts';
import type { Channel } from '../channels/telegram/telegram.ts';
import { startChannel } from '../channels/telegram/telegram.ts';
import { translate } from '../language/texts.ts';
import { LARGEST_BYTES } from '../media/limits.ts';
import type { Listener } from '../media/listener.ts';
import { HELD } from '../store/inbox.ts';
import type { Store } from '../store/store.ts';
import { arrivalOf } from './arrivals.ts';
import { attachmentsOf } from './attachments.ts';
import type { Bot, Worked } from './bot.ts';
import { createBot } from './bot.ts';
import type { Figures, Queues } from './figures.ts';
import { counted, newFigures } from './figures.ts';
import { fetching } from './files.ts';
import { linksTo } from './links.ts';
import { conversationHash } from './log.ts';
import { listening } from './listening.ts';
import { sayer } from './speaking.ts';
import type { Pace } from './pace.ts';
import { paceKeeper, USUAL_PACE } from './pace.ts';
import { startSchedule } from './schedule.ts';
import type { TelegramConfig } from './telegram-config.ts';
import type { Voice } from './voice.ts';

export interface TelegramParts {
  store: Store;
  config: Pick<TelegramConfig, 'token' | 'apiRoot' | 'webhook'>;
  log: Logger;
  now: () => number;
  freshId: () => string;
  timing?: Timing;
  pace?: Pace;
  /** Listens and speaks; recordings are answered with a request to type where undefined. */
  voice?: Voice | undefined;
  /** In place of the voice's own listener, for tests. */
  listener?: Listener | undefined;
}

export interface Service {
  figures: Figures;
  queues(): Queues;
  /** Where the webhook listens. */
  port: number | undefined;
  /** Ends what is in flight, keeps the rest in the store, and resolves; at the latest after `withinMs`. */
  stop(withinMs: number): Promise<void>;
  /** Rejects where the store can no longer be used. */
  failed: Promise<never>;
}

/** A platform repeats an update for a day at most. */
const INBOX_KEPT_MS = 7 * DAY_MS;
const OUTBOX_KEPT_MS = 30 * DAY_MS;

function postOf(store: Store, now: () => number): Post {
  const { outbox } = store;
  return {
    next: (conversation) => outbox.next(conversation),
    byId: (id) => outbox.byId(id),
    pending: () => outbox.pending('telegram'),
    staleKeyboards: (conversation) => outbox.staleKeyboards(conversation),
    settle: (marks, retired) =>
      store.together(() => {
        for (const mark of marks) outbox.mark(mark, now());
        for (const id of retired) outbox.retire(id);
      }),
    unreachable: (conversation, everywhere) => store.unreachable(conversation, everywhere, now()),
  };
}

function journalOf(figures: Figures, log: Logger, now: () => number): Journal {
  const count = counted(figures, now);
  return {
    event: (kind, facts) => {
      count(kind, facts);
      if (kind !== 'poll' && kind !== 'delivered') log.warn({ ...facts }, kind);
    },
  };
}

/** Handles what waits in the inbox, a group at a time, and leaves room between groups for everything else. */
interface Worker {
  poke(): void;
  stop(): void;
}

function workerOf(
  bot: Bot,
  store: Store,
  now: () => number,
  onWorked: (worked: Worked) => void,
  onUnusable: (error: unknown) => void,
): Worker {
  let isPlanned = false;
  let isStopped = false;
  let timer: NodeJS.Timeout | undefined;
  const planNext = (): void => {
    const dueAt = store.inbox.nextDueAt(now());
    clearTimeout(timer);
    if (dueAt !== undefined) timer = setTimeout(poke, Math.max(1, dueAt - now()));
  };
  const run = (): void => {
    isPlanned = false;
    if (isStopped) return;
    try {
      const group = bot.workGroup();
      group.forEach(onWorked);
      if (group.length > 0) poke();
      else planNext();
    } catch (error) {
      onUnusable(error);
    }
  };
  const poke = (): void => {
    if (isPlanned || isStopped) return;
    isPlanned = true;
    setImmediate(run);
  };
  return {
    poke,
    stop: () => {
      isStopped = true;
      clearTimeout(timer);
    },
  };
}

/** The listener for what people send, fetched from the platform. */
function listenerOf({ config, voice, listener, timing = USUAL_TIMING }: TelegramParts): Listener | undefined {
  return (
    listener ?? voice?.listener(downloader(config, { mostBytes: LARGEST_BYTES, timeMs: timing.requestMs }))
  );
}

function count(figures: Figures, { came, ms }: Worked): void {
  figures.turns += 1;
  figures.turnMs += ms;
  if (came === 'failed') figures.failedTurns += 1;
}

/** Starts serving. Rejects where the token is refused or the webhook's port is taken. */
export async function startTelegram(parts: TelegramParts): Promise<Service> {
  const { store, config, log, now, freshId, timing = USUAL_TIMING, pace = USUAL_PACE, voice } = parts;
  const listener = listenerOf(parts);
  const figures = newFigures(now());
  let fail: (error: unknown) => void = () => undefined;
  const failed = new Promise<never>((_, reject) => {
    fail = reject;
  });
  failed.catch(() => undefined);
  const onUnusable = (error: unknown): void => fail(error);

  const channel: { current?: Channel } = {};
  const links = linksTo(() => channel.current?.username, randomBytes);
  const bot = createBot({
    store,
    now,
    freshId,
    links,
    log,
    hash: conversationHash(config.token),
    onErased: (person) => void voice?.kept.forget(person).catch(() => undefined),
  });
  const onWorked = (worked: Worked): void => {
    const { entry, came } = worked;
    count(figures, worked);
    if (entry.hints?.query !== undefined && came !== 'remark')
      channel.current?.acknowledge(entry.hints.query);
    for (const conversation of [entry.conversation, ...worked.wakes]) channel.current?.wake(conversation);
    // A recording behind it may be next.
    hear();
  };
  const worker = workerOf(bot, store, now, onWorked, onUnusable);
  const hear = listening({ store, bot, listener, now }, () => worker.poke(), onUnusable);
  const fetchFile = (file: string): Promise<Uint8Array> =>
    channel.current?.fetchFile(file) ?? Promise.reject(new Error('Not serving yet'));
  const fetchFiles = fetching(store, fetchFile, now, freshId, () => worker.poke());
  const arrivalParts = { store, slotFor: paceKeeper(pace), listens: listener !== undefined };
  const receive = (updates: readonly TelegramIncoming[]): void => {
    const arrivals = updates.map((update) => arrivalOf(update, now(), arrivalParts));
    store.receive(arrivals, now());
    figures.updates += arrivals.length;
    figures.slowed += arrivals.filter(({ dueAt }) => dueAt !== undefined && dueAt !== HELD).length;
    for (const { notice, conversation } of arrivals)
      if (notice !== undefined) channel.current?.wake(conversation);
    hear();
    fetchFiles();
    worker.poke();
  };
  const open = await startChannel({
    account: config,
    webhook: config.webhook,
    timing,
    post: postOf(store, now),
    attachments: attachmentsOf(store),
    word: (locale, key, facts) => translate(locale, `telegram:${key}`, facts),
    say: voice && sayer(voice.speaker),
    journal: journalOf(figures, log, now),
    receive,
    onUnusable,
  });
  channel.current = open;
  const prune = (): void => {
    store.prune(now() - INBOX_KEPT_MS, now() - OUTBOX_KEPT_MS);
    for (const person of store.removeSilent(now()).who)
      void voice?.kept.forget(person).catch(() => undefined);
    void voice?.kept.prune(now()).catch(() => undefined);
  };
  prune();
  const pruning = setInterval(prune, DAY_MS).unref();
  const schedule = startSchedule({ store, now, log }, (conversation) => open.wake(conversation), onUnusable);
  hear();
  fetchFiles();
  worker.poke();
  return {
    figures,
    failed,
    queues: () => ({ inbox: store.inbox.open(), outbox: store.outbox.open(), inFlight: open.inFlight() }),
    port: open.port,
    stop: async (withinMs) => {
      clearInterval(pruning);
      schedule.stop();
      worker.stop();
      await open.stop(withinMs);
    },
  };
}
