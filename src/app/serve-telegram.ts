/** The process that serves the platform: log, health address, and a graceful end. */
import { randomUUID } from 'node:crypto';
import type { Server } from 'node:http';
import type { Logger } from 'pino';
import { anyFailureOf } from '../channels/telegram/failure.ts';
import { translate } from '../language/texts.ts';
import type { Store } from '../store/store.ts';
import type { Queues } from './figures.ts';
import { serveHealth } from './health.ts';
import { errorFacts } from './log.ts';
import { logTo } from './log-file.ts';
import { StartFailed } from './start-failed.ts';
import type { TelegramConfig } from './telegram-config.ts';
import type { Service } from './telegram.ts';
import { startTelegram } from './telegram.ts';
import type { Voice } from './voice.ts';

/** What is in flight gets this long to end; with the rest of the way out it stays within ten seconds. */
const STOP_MS = 8000;
const EXIT_MS = 300;

/** Resolves when somebody asks the program to end. */
function endAsked(): Promise<NodeJS.Signals> {
  return new Promise((resolve) => {
    for (const signal of ['SIGTERM', 'SIGINT'] as const) process.once(signal, resolve);
  });
}

/** In plain words why the start failed. */
function startFailed(error: unknown): unknown {
  if (error instanceof Error && 'code' in error && error.code === 'EADDRINUSE')
    return new StartFailed(
      translate('en', 'app:port-taken', { port: 'port' in error ? String(error.port) : '' }),
    );
  const failure = anyFailureOf(error);
  if (failure.kind === 'unauthorised') return new StartFailed(translate('en', 'app:token-refused'));
  if (failure.kind === 'refused')
    return new StartFailed(translate('en', 'app:start-refused', { reason: failure.description }));
  return error;
}

async function begun(
  config: TelegramConfig,
  store: Store,
  log: Logger,
  voice: Voice,
): Promise<{ service: Service; health?: Server }> {
  const now = (): number => Date.now();
  try {
    const service = await startTelegram({ store, config, log, now, freshId: randomUUID, voice });
    const { figures } = service;
    const queues = (): Queues => service.queues();
    if (config.healthPort === undefined) return { service };
    const polls = config.webhook === undefined;
    return { service, health: await serveHealth(config.healthPort, { figures, queues, now, polls }) };
  } catch (error) {
    throw startFailed(error);
  }
}

/** Serves until a signal asks for the end. Rejects where the start fails or the store can no longer be used. */
export async function serveTelegram(
  config: TelegramConfig,
  store: Store,
  voice: Voice,
  logFile?: string,
): Promise<void> {
  const { log } = logTo(logFile);
  const asked = endAsked();
  const starting = begun(config, store, log, voice);
  const first = await Promise.race([starting, asked]);
  if (typeof first === 'string') process.exit(0);
  const { service, health } = first;
  log.info({ channel: config.webhook === undefined ? 'polling' : 'webhook' }, 'serving');
  try {
    const signal = await Promise.race([asked, service.failed]);
    log.info({ signal }, 'stopping');
  } catch (error) {
    log.fatal(errorFacts(error), 'store unusable');
    throw error;
  } finally {
    await service.stop(STOP_MS);
    health?.close();
    health?.closeAllConnections();
    log.info(service.queues(), 'stopped');
    log.flush();
    // A call that the platform leaves unanswered does not hold up the end.
    setTimeout(() => process.exit(), EXIT_MS).unref();
  }
}
