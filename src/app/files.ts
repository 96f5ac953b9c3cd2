/** Files that people send: kept for those who may import them, and for nobody else. */
import { mayDo } from '../dialogues/access.ts';
import type { Body } from '../dialogues/message.ts';
import type { InboxEntry, Store } from '../store/store.ts';

/** Largest file that is taken, bytes; a bot cannot fetch more of the platform. */
export const LARGEST_FILE = 20_000_000;

/** Whether a file of this person is of any use. */
export function mayImport(conversation: string, person: string, store: Store): boolean {
  return mayDo({ file: true }, store.load(conversation, person));
}

/** Keeps a file and returns the message that tells of it; one without a file where there is none. */
export function keptFile(
  sent: { id: string; person: string; name: string; content: Uint8Array | undefined },
  store: Store,
  at: number,
): Body {
  const { id, person, name, content } = sent;
  if (content === undefined || content.length > LARGEST_FILE) return { kind: 'file', file: '', name };
  store.uploads.add({ id, person, name, content }, at);
  return { kind: 'file', file: id, name };
}

/**
 * Fetches every file that is held in the inbox; call it whenever there may be a new one. One that came before a crash
 * is still held there and is fetched again.
 */
export function fetching(
  store: Store,
  fetchFile: (file: string) => Promise<Uint8Array>,
  now: () => number,
  freshId: () => string,
  onFetched: () => void,
): () => void {
  const busy = new Set<number>();
  const keep = async (entry: InboxEntry): Promise<void> => {
    const { body, person } = entry;
    if (body.kind !== 'file') return;
    busy.add(entry.id);
    const content = await fetchFile(body.file).catch(() => undefined);
    store.together(() => {
      const kept = keptFile({ id: freshId(), person, name: body.name, content }, store, now());
      store.inbox.release(entry.id, kept, now());
    });
    busy.delete(entry.id);
    onFetched();
  };
  return () => {
    for (const entry of store.inbox.held()) if (!busy.has(entry.id)) void keep(entry);
  };
}
