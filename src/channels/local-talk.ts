/** What a channel on the same machine needs of the bot: say something, hear what comes back. */
import type { Body, Message } from '../dialogues/message.ts';

export interface LocalTalk {
  /** Sends one message of the person and gives the bot's, later where it was a recording. Fails where the store cannot be used. */
  send(body: Body): Message[] | Promise<Message[]>;
  /** What the conversation is waiting for. */
  state(): string;
  /** A word of the program itself in the person's language, by its key within `app`. */
  word(key: string, facts?: Record<string, string | number>): string;
}
