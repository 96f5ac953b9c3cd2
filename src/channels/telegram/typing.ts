/** The typing sign, for people whose answer takes longer than a moment. */
import type { Api } from 'grammy';
import type { Timing } from './ports.ts';
import { chatOf } from './update.ts';

export interface TypingSigns {
  /** A message of this conversation was taken in. */
  expect(conversation: string): void;
  /** Its answer is out. */
  quiet(conversation: string): void;
  stop(): void;
}

/** The platform shows the sign for five seconds, or until a message comes. */
const REPEAT_MS = 4500;
/** An answer that takes longer than this has failed; the sign would only deceive. */
const MOST_SIGNS = 7;

/** Typing signs by way of a client. */
export function typingSigns(api: Api, { typingAfterMs }: Timing): TypingSigns {
  const timers = new Map<string, NodeJS.Timeout>();
  const plan = (conversation: string, delayMs: number, left: number): void => {
    const timer = setTimeout(() => {
      // A sign that cannot be shown is no loss.
      api.sendChatAction(chatOf(conversation).chat, 'typing').catch(() => undefined);
      if (left > 1) plan(conversation, REPEAT_MS, left - 1);
      else timers.delete(conversation);
    }, delayMs);
    timers.set(conversation, timer);
  };
  const quiet = (conversation: string): void => {
    clearTimeout(timers.get(conversation));
    timers.delete(conversation);
  };
  return {
    expect: (conversation) => {
      if (!timers.has(conversation)) plan(conversation, typingAfterMs, MOST_SIGNS);
    },
    quiet,
    stop: () => [...timers.keys()].forEach(quiet),
  };
}
