/** Pictures and files of messages, made when they are delivered: what waits in the outbox stays small. */
import type { Attachments } from '../channels/telegram/ports.ts';
import type { FileOut } from '../dialogues/say.ts';
import { csvFile } from '../store/cells.ts';
import type { Store } from '../store/store.ts';

function contentOf(file: FileOut<string>, { pools }: Pick<Store, 'pools'>): string {
  return file.holds === 'pools' ? pools.written(file.company) : csvFile(file.lines);
}

/** The attachments of a store. */
export function attachmentsOf(store: Pick<Store, 'pools'>): Attachments {
  return {
    picture: async (picture) => {
      // Loaded only where something is drawn: the chat opens without it.
      const { drawn } = await import('../media/pictures/draw.ts');
      return drawn(picture);
    },
    file: (file) => Promise.resolve(Buffer.from(contentOf(file, store), 'utf8')),
  };
}
