/**
 * Long polling. A batch is confirmed only by the next poll, and that only begins once the batch is in the inbox:
 * whenever the program dies, the platform still has what the inbox has not.
 */
import type { Api } from 'grammy';
import type { Update } from 'grammy/types';
import { failureOf } from './failure.ts';
import { takeIn } from './intake.ts';
import type { Receive } from './intake.ts';
import { delayMs, isOver, rest } from './patience.ts';
import type { Journal, Timing } from './ports.ts';
import type { Self } from './update.ts';
import { WANTED } from './update.ts';

const BATCH = 100;

export interface PollingParts {
  api: Api;
  self: Self;
  receive: Receive;
  journal: Journal;
  timing: Timing;
  signal: AbortSignal;
}

/** One poll; broken off where no answer comes in time. */
async function poll(
  offset: number | undefined,
  { api, timing, signal, journal }: PollingParts,
): Promise<Update[]> {
  const breaker = new AbortController();
  const stop = (): void => breaker.abort();
  signal.addEventListener('abort', stop);
  const watchdog = setTimeout(() => {
    journal.event('poll-stalled');
    breaker.abort();
  }, timing.stallMs);
  try {
    return await api.getUpdates(
      {
        limit: BATCH,
        timeout: Math.round(timing.pollMs / 1000),
        allowed_updates: WANTED,
        ...(offset === undefined ? {} : { offset }),
      },
      breaker.signal as Parameters<Api['getUpdates']>[1],
    );
  } finally {
    clearTimeout(watchdog);
    signal.removeEventListener('abort', stop);
  }
}

/** Polls until the signal ends it. Rejects only where the store cannot be used. */
export async function pollForever(parts: PollingParts): Promise<void> {
  const { self, receive, journal, timing, signal } = parts;
  let offset: number | undefined;
  let failures = 0;
  while (!isOver(signal)) {
    try {
      const updates = await poll(offset, parts);
      failures = 0;
      journal.event('poll', { updates: updates.length });
      if (isOver(signal)) return;
      takeIn(updates, self, receive, journal);
      const last = updates.at(-1);
      if (last !== undefined) offset = last.update_id + 1;
    } catch (error) {
      if (isOver(signal)) return;
      const failure = failureOf(error);
      journal.event('poll-failed', { ...failure });
      await rest(delayMs(failure, failures, Math.random(), timing), signal);
      failures += 1;
    }
  }
}
