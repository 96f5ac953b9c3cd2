/** A bot and a fake platform in one process, with short waits. */
import { randomUUID } from 'node:crypto';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { pino } from 'pino';
import type { Pace } from '../../src/app/pace.ts';
import type { Service } from '../../src/app/telegram.ts';
import { startTelegram } from '../../src/app/telegram.ts';
import type { Timing } from '../../src/channels/telegram/ports.ts';
import type { Voice } from '../../src/app/voice.ts';
import type { Listener } from '../../src/media/listener.ts';
import type { Store } from '../../src/store/store.ts';
import { openStore } from '../../src/store/store.ts';
import type { FakeBotApi } from './server.ts';
import { startFakeBotApi } from './server.ts';

const QUICK: Timing = {
  pollMs: 1000,
  stallMs: 2500,
  requestMs: 5000,
  backoffMs: 20,
  longestBackoffMs: 200,
  secondMs: 20,
  typingAfterMs: 500,
};

export interface RigOptions {
  fake?: FakeBotApi;
  webhookSecret?: string;
  pace?: Pace;
  timing?: Partial<Timing>;
  listener?: Listener;
  voice?: Voice;
  /** What the bot takes the time to be; that of the machine where left out. */
  now?: () => number;
}

export interface Rig {
  fake: FakeBotApi;
  store: Store;
  service: Service;
  file: string;
  /** Log lines so far. */
  log: string[];
  /** The program ends, and starts again on the same store. */
  restart(): Promise<void>;
  /** Resolves once neither the platform nor the bot has anything left to do. */
  settled(): Promise<void>;
  close(): Promise<void>;
}

const WEBHOOK = { url: 'https://pool.example/hook', host: '127.0.0.1', port: 0 };

async function settled(fake: FakeBotApi, service: Service): Promise<void> {
  const until = Date.now() + 60_000;
  for (let calm = 0; calm < 4;) {
    if (Date.now() > until) throw new Error(`Not settled: ${JSON.stringify(service.queues())}`);
    await new Promise((resolve) => setTimeout(resolve, 15));
    const { inbox, outbox, inFlight } = service.queues();
    const isCalm = inbox + outbox + inFlight + fake.queue.waiting() === 0;
    calm = isCalm ? calm + 1 : 0;
  }
}

/** Starts both. */
export async function startRig(options: RigOptions = {}): Promise<Rig> {
  const fake = options.fake ?? (await startFakeBotApi());
  const folder = mkdtempSync(join(tmpdir(), 'padside-'));
  const file = join(folder, 'bot.sqlite');
  const store = openStore(file);
  const log: string[] = [];
  const { webhookSecret, pace, listener, voice, now = () => Date.now() } = options;
  const start = (): Promise<Service> =>
    startTelegram({
      store,
      config: {
        token: fake.token,
        apiRoot: fake.apiRoot,
        webhook: webhookSecret === undefined ? undefined : { ...WEBHOOK, secret: webhookSecret },
      },
      log: pino({}, { write: (line) => void log.push(line) }),
      now,
      freshId: randomUUID,
      timing: { ...QUICK, ...options.timing },
      ...(pace === undefined ? {} : { pace }),
      ...(listener === undefined ? {} : { listener }),
      ...(voice === undefined ? {} : { voice }),
    });
  let service = await start();
  if (service.port !== undefined) fake.webhookTarget = `http://127.0.0.1:${service.port}/hook`;
  return {
    fake,
    store,
    get service() {
      return service;
    },
    file,
    log,
    restart: async () => {
      await service.stop(3000);
      service = await start();
    },
    settled: () => settled(fake, service),
    close: async () => {
      await service.stop(3000);
      store.close();
      await fake.close();
      rmSync(folder, { recursive: true });
    },
  };
}
