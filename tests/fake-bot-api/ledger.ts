/** Comparing what people saw with what the store says was said. */
import Database from 'better-sqlite3';
import { pagesOf } from '../../src/channels/telegram/look.ts';
import { translate } from '../../src/language/texts.ts';
import { outboxOf } from '../../src/store/outbox.ts';
import type { SeenMessage } from './chats.ts';

function fingerprint(html: string, keyboard: unknown): string {
  return `${html}|${JSON.stringify(keyboard)}`;
}

/** Everything said in a conversation, oldest first, as it should have been sent. */
export function said(file: string, conversation: string): string[] {
  const database = new Database(file, { readonly: true });
  const outbox = outboxOf(database);
  const ids = database
    .prepare<[string], { id: number }>(
      'SELECT id FROM outbox WHERE conversation = ? AND deed IS NULL ORDER BY id',
    )
    .all(conversation);
  const pages = ids.flatMap(({ id }) => {
    const entry = outbox.byId(id);
    if (entry === undefined) return [];
    return pagesOf(entry, (locale, key, facts) => translate(locale, `telegram:${key}`, facts));
  });
  database.close();
  return pages.map(({ html, keyboard }) => fingerprint(html, keyboard?.inline_keyboard ?? []));
}

export interface Comparison {
  /** Messages that came again, right after themselves. */
  repeats: SeenMessage[];
  /** Messages that came out of order, or were never said. */
  strays: number;
  /** Messages said and never seen. */
  missing: number;
}

/** How the messages of a chat differ from what was said. */
export function compared(seen: readonly SeenMessage[], expected: readonly string[]): Comparison {
  const repeats: SeenMessage[] = [];
  let strays = 0;
  let next = 0;
  for (const message of seen) {
    const print = fingerprint(message.first.html, message.first.keyboard);
    if (print === expected[next]) next += 1;
    else if (next > 0 && print === expected[next - 1]) repeats.push(message);
    else strays += 1;
  }
  return { repeats, strays, missing: expected.length - next };
}
