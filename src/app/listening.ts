/** Recordings on their way to becoming text. */
import type { Listener } from '../media/listener.ts';
import type { Body } from '../dialogues/message.ts';
import type { InboxEntry, Store } from '../store/store.ts';

async function heard(entry: InboxEntry, listener: Listener, locale: string): Promise<Body> {
  const { body } = entry;
  if (body.kind !== 'voice') return body;
  try {
    const result = await listener.hear({ file: body.file, locale });
    return result.kind === 'text' ? { kind: 'text', text: result.text } : body;
  } catch {
    return body;
  }
}

/**
 * Listens to every recording that is held in the inbox; call it whenever there may be a new one. A recording that
 * came before a crash is still held there and is listened to again.
 */
export function listening(
  store: Store,
  listener: Listener | undefined,
  now: () => number,
  onHeard: () => void,
): () => void {
  const busy = new Set<number>();
  if (listener === undefined) return () => undefined;
  const hear = async (entry: InboxEntry): Promise<void> => {
    busy.add(entry.id);
    const { state, locale } = store.load(entry.conversation, entry.person);
    const body = await heard(entry, listener, state?.locale ?? locale ?? entry.hints?.locale ?? 'en');
    store.together(() => store.inbox.release(entry.id, body, now()));
    busy.delete(entry.id);
    onHeard();
  };
  return () => {
    for (const entry of store.inbox.held())
      if (entry.body.kind === 'voice' && !busy.has(entry.id)) void hear(entry);
  };
}
