/** Pictures and files of messages, made when they are delivered: what waits in the outbox stays small. */
import type { FileOut, Picture } from '../dialogues/say.ts';
import type { Store } from '../store/store.ts';

export interface Attachments {
  /** PNG. */
  picture(picture: Picture): Promise<Uint8Array>;
  file(file: FileOut): Promise<Uint8Array>;
}

/** The attachments of a store. */
export function attachmentsOf(store: Pick<Store, 'pools'>): Attachments {
  return {
    picture: async (picture) => {
      // Loaded only where something is drawn: the chat opens without it.
      const { drawn } = await import('../media/pictures/draw.ts');
      return drawn(picture);
    },
    file: ({ company }) => Promise.resolve(Buffer.from(store.pools.written(company), 'utf8')),
  };
}
