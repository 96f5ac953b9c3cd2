/** The channel: takes updates in by polling or webhook, and delivers what the bot says. */
import type { Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import type { Api } from 'grammy';
import { clientOf } from './client.ts';
import type { Account } from './client.ts';
import { commandCalls } from './commands.ts';
import { downloaded } from './download.ts';
import { startDelivery } from './delivery.ts';
import type { Receive } from './intake.ts';
import { persistently } from './patience.ts';
import { pollForever } from './polling.ts';
import type { Attachments, Journal, Post, Say, Timing, Word } from './ports.ts';
import { acknowledge } from './send.ts';
import { typingSigns } from './typing.ts';
import type { Self } from './update.ts';
import { WANTED } from './update.ts';
import { webhookServer } from './webhook.ts';

/** Where the platform is to call us. */
interface WebhookAddress {
  /** Public address, HTTPS. */
  url: string;
  secret: string;
  /** Where we listen; whatever speaks HTTPS passes the calls on to here. */
  host: string;
  port: number;
}

export interface ChannelParts {
  account: Account;
  webhook?: WebhookAddress | undefined;
  timing: Timing;
  post: Post;
  word: Word;
  say?: Say | undefined;
  attachments: Attachments;
  journal: Journal;
  /** Writes updates into the inbox and sees to it that they are handled. */
  receive: Receive;
  onUnusable: (error: unknown) => void;
}

export interface Channel {
  /** There may be something to deliver in this conversation. */
  wake(conversation: string): void;
  /** Takes the waiting sign off a pressed button. */
  acknowledge(query: string): void;
  inFlight(): number;
  /** Fetches a file that somebody sent. Rejects where the platform does not give it. */
  fetchFile(file: string): Promise<Uint8Array>;
  /** The bot's user name. */
  username: string;
  /** Where the webhook listens. */
  port: number | undefined;
  /** Takes nothing more in, ends what is in flight, and resolves; at the latest after `withinMs`. */
  stop(withinMs: number): Promise<void>;
}

async function listen(server: Server, { host, port }: WebhookAddress): Promise<number> {
  await new Promise<void>((resolve, reject) => {
    server.once('error', reject);
    server.listen(port, host, resolve);
  });
  return (server.address() as AddressInfo).port;
}

/** Tells the platform how updates are to come; what waits there is kept. */
function announcement(api: Api, webhook: WebhookAddress | undefined): () => Promise<unknown> {
  if (webhook === undefined) return () => api.deleteWebhook({ drop_pending_updates: false });
  const { url, secret } = webhook;
  return () => api.setWebhook(url, { secret_token: secret, allowed_updates: WANTED });
}

/** Starts the channel. Rejects where the token is refused or the webhook's port is taken. */
export async function startChannel(parts: ChannelParts): Promise<Channel> {
  const { account, webhook, timing, post, word, say, journal, onUnusable } = parts;
  const api = clientOf(account, timing.requestMs);
  const pollApi = clientOf(account, timing.stallMs * 2);
  const intake = new AbortController();
  const output = new AbortController();
  const onFailure = (failure: object): void => journal.event('poll-failed', { ...failure });
  const untilItWorks = <T>(call: () => Promise<T>): Promise<T> =>
    persistently(call, intake.signal, timing, onFailure);

  const self: Self = await untilItWorks(() => api.getMe());
  await untilItWorks(announcement(api, webhook));
  const signs = typingSigns(api, timing);
  const sending = { api, post, word, say, attachments: parts.attachments };
  const delivery = startDelivery({
    ...sending,
    journal,
    timing,
    onUnusable,
    signal: output.signal,
    onQuiet: (conversation) => signs.quiet(conversation),
  });
  // The menus are no reason to keep anybody waiting.
  for (const call of commandCalls(api, word)) untilItWorks(call).catch(() => undefined);
  const receive: Receive = (updates) => {
    parts.receive(updates);
    for (const { conversation } of updates) signs.expect(conversation);
  };
  const shared = { self, receive, journal, onUnusable };
  const server =
    webhook && webhookServer({ ...shared, secret: webhook.secret, path: new URL(webhook.url).pathname });
  const port = webhook && server && (await listen(server, webhook));
  const polling =
    server === undefined
      ? pollForever({ ...shared, api: pollApi, timing, signal: intake.signal }).catch(onUnusable)
      : Promise.resolve();

  const closed = async (): Promise<void> => {
    if (server !== undefined) {
      server.closeIdleConnections();
      await new Promise((resolve) => server.close(resolve));
    }
    await polling;
    output.abort();
    await delivery.idle();
  };
  return {
    wake: (conversation) => delivery.wake(conversation),
    // Nothing hangs on it: the sign goes away by itself.
    acknowledge: (query) => void acknowledge(query, sending).catch(() => undefined),
    inFlight: () => delivery.inFlight(),
    fetchFile: async (file) => downloaded(await untilItWorks(() => api.getFile(file)), account),
    username: self.username,
    port,
    stop: async (withinMs) => {
      signs.stop();
      intake.abort();
      const late = new Promise<void>((resolve) => setTimeout(resolve, withinMs).unref());
      await Promise.race([closed(), late]);
      server?.closeAllConnections();
    },
  };
}
