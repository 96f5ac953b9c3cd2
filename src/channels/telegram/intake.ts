/** From the platform's updates into the inbox, whichever way they come. */
import type { Update } from 'grammy/types';
import type { Journal, TelegramIncoming } from './ports.ts';
import type { Self } from './update.ts';
import { incomingOf } from './update.ts';

/** Writes updates into the inbox in one transaction. Throws where the store cannot be used. */
export type Receive = (updates: readonly TelegramIncoming[]) => void;

/** An update of a shape nobody foresaw is noted and left out: it must not hold up those behind it. */
function readable(update: Update, self: Self, journal: Journal): TelegramIncoming[] {
  try {
    const incoming = incomingOf(update, self);
    return incoming === undefined ? [] : [incoming];
  } catch {
    journal.event('unreadable', { update: update.update_id });
    return [];
  }
}

/** Takes updates in. */
export function takeIn(updates: readonly Update[], self: Self, receive: Receive, journal: Journal): void {
  const incoming = updates.flatMap((update) => readable(update, self, journal));
  if (incoming.length > 0) receive(incoming);
}
