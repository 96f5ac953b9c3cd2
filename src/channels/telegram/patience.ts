/** Waiting, and waiting longer each time. */
import type { Failure } from './failure.ts';
import { anyFailureOf } from './failure.ts';
import type { Timing } from './ports.ts';

/** Whether the signal was given; it may be given at any moment. */
export function isOver(signal: AbortSignal): boolean {
  return signal.aborted;
}

/** Waits, or less where the signal ends it. */
export function rest(ms: number, signal: AbortSignal): Promise<void> {
  if (signal.aborted) return Promise.resolve();
  return new Promise((resolve) => {
    const end = (): void => {
      clearTimeout(timer);
      signal.removeEventListener('abort', end);
      resolve();
    };
    const timer = setTimeout(end, ms);
    signal.addEventListener('abort', end);
  });
}

/**
 * How long to wait after a failure, in milliseconds.
 * @param failures failures in a row before this one.
 * @param random from 0 up to 1: spreads the calls of many conversations.
 */
export function delayMs(failure: Failure, failures: number, random: number, timing: Timing): number {
  const { backoffMs, longestBackoffMs, secondMs } = timing;
  if (failure.kind === 'flood') return failure.seconds * secondMs + random * backoffMs * 0.2;
  if (failure.kind === 'unauthorised') return longestBackoffMs;
  const doubled = Math.min(longestBackoffMs, backoffMs * 2 ** Math.min(failures, 16));
  return doubled * (0.75 + random * 0.25);
}

/** Calls until it works, the failure is one that stays, or the signal ends it. Rejects with the last error. */
export async function persistently<T>(
  call: () => Promise<T>,
  signal: AbortSignal,
  timing: Timing,
  onFailure: (failure: Failure) => void,
): Promise<T> {
  for (let failures = 0; ; failures += 1) {
    try {
      return await call();
    } catch (error) {
      const failure = anyFailureOf(error);
      if (failure.kind === 'refused' || failure.kind === 'unauthorised' || isOver(signal)) throw error;
      onFailure(failure);
      await rest(delayMs(failure, failures, Math.random(), timing), signal);
      if (isOver(signal)) throw error;
    }
  }
}
