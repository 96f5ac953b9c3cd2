/** What a channel on the same machine needs of the bot: say something, hear what comes back. */
import type { Body, Message } from '../dialogues/message.ts';

export interface LocalTalk {
  /** Sends one message of the person and gives the bot's, later where it was a recording. Fails where the store cannot be used. */
  send(body: Body): Message[] | Promise<Message[]>;
  /** Keeps a file at this machine and sends it as the person's message. */
  sendFile(path: string): Message[];
  /** The picture or file of a message; undefined where it has none. */
  attached(message: Message): Promise<Uint8Array | undefined>;
  /** What the conversation is waiting for. */
  state(): string;
  /** A word of the program itself in the person's language, by its key within `app`. */
  word(key: string, facts?: Record<string, string | number>): string;
}
