/** Recordings on their way to becoming text. */
import type { Body } from '../dialogues/message.ts';
import type { Heard, Listener, Recording } from '../media/listener.ts';
import type { InboxEntry, Store } from '../store/store.ts';
import type { Bot } from './bot.ts';

/** Recordings listened to at the same time: each takes a processor for half a second. */
const SIDE_BY_SIDE = 2;

function bodyOf(heard: Heard): Body {
  if (heard.kind === 'text') {
    const { text, alternatives = [], isSure = true } = heard;
    return { kind: 'heard', text, others: [...alternatives], isSure };
  }
  const { why, packages = [] } = heard;
  if (why === undefined) return { kind: 'unheard', why: 'missing' };
  return { kind: 'unheard', why, ...(packages.length === 0 ? {} : { packages: [...packages] }) };
}

/** What a recording turns out to be, heard with the open question of its conversation in mind. Never rejects. */
export async function heardBody(
  file: string,
  from: { conversation: string; person: string },
  bot: Bot,
  listener: Listener,
): Promise<Body> {
  try {
    const { locale, asked } = bot.listeningFor(from.conversation, from.person);
    const recording: Recording = { file, locale, person: from.person };
    return bodyOf(await listener.hear(asked === undefined ? recording : { ...recording, expecting: asked }));
  } catch {
    return { kind: 'unheard', why: 'missing' };
  }
}

/**
 * Listens to every recording that is held in the inbox and whose turn it is; call it whenever there may be one. A
 * recording that came before a crash is still held there and is listened to again.
 */
export function listening(
  {
    store,
    bot,
    listener,
    now,
  }: { store: Store; bot: Bot; listener: Listener | undefined; now: () => number },
  onHeard: () => void,
  onUnusable: (error: unknown) => void,
): () => void {
  const busy = new Set<number>();
  if (listener === undefined) return () => undefined;
  const hear = async (entry: InboxEntry): Promise<void> => {
    busy.add(entry.id);
    const { body } = entry;
    const heard = body.kind === 'voice' ? await heardBody(body.file, entry, bot, listener) : body;
    try {
      store.together(() => store.inbox.release(entry.id, heard, now()));
      busy.delete(entry.id);
      onHeard();
      begin();
    } catch (error) {
      onUnusable(error);
    }
  };
  const begin = (): void => {
    for (const entry of store.inbox.held()) {
      if (busy.size >= SIDE_BY_SIDE) return;
      if (entry.body.kind === 'voice' && !busy.has(entry.id)) void hear(entry);
    }
  };
  return begin;
}
