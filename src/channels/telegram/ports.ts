/** What the channel needs of the rest of the program. */
import type { Locale } from '../../dialogues/event.ts';
import type { Body, Message } from '../../dialogues/message.ts';
import type { FileOut, Picture } from '../../dialogues/say.ts';

/** A pressed button: where it was shown, and which it is. */
export interface Press {
  version: number;
  message: number;
  choice: number | 'more';
}

/** An update in the project's own words. */
export interface TelegramIncoming {
  channel: 'telegram';
  key: string;
  conversation: string;
  person: string;
  body: Body;
  hints: {
    locale?: Locale;
    press?: Press;
    query?: string;
    photo?: string;
    tooBig?: true;
    replyTo?: number;
    payload?: string;
  };
}

interface SpokenPart {
  text: string;
  slow?: boolean;
}

/** Makes a voice note of words; a text in its place where that cannot be, or nothing. Never rejects. */
export type Say = (
  conversation: string,
  parts: readonly SpokenPart[],
  locale: Locale,
) => Promise<{ opus: Buffer } | { instead: string | undefined }>;

/** A message that waits to be delivered. */
export interface Outgoing {
  id: number;
  conversation: string;
  message: Message;
  locale: Locale;
  version: number;
  deed?:
    | { as: 'notice'; query: string }
    | { as: 'unfold'; of: number; query: string }
    | { as: 'spoken'; parts: readonly SpokenPart[] };
  replyTo?: number;
  partsSent: number;
  sentAs?: number;
  chosen?: number;
}

export interface DeliveryMark {
  id: number;
  partsSent: number;
  done: boolean;
  sentAs?: number;
  keyboard?: boolean;
  failure?: string;
}

/** The messages to deliver and what became of them. */
export interface Post {
  next(conversation: string): Outgoing | undefined;
  byId(id: number): Outgoing | undefined;
  /** Conversations with messages that wait. */
  pending(): string[];
  /** Messages with buttons of a question no longer open. */
  staleKeyboards(conversation: string): Outgoing[];
  /** Writes marks and retired keyboards down in one transaction. */
  settle(marks: readonly DeliveryMark[], retired: readonly number[]): void;
  /** The conversation's person blocked the bot: `everywhere` where it is their own chat and not a group. */
  unreachable(conversation: string, everywhere: boolean): void;
}

/** Pictures and files of messages, made when they are delivered. */
export interface Attachments {
  /** PNG. */
  picture(picture: Picture<string>): Promise<Uint8Array>;
  file(file: FileOut<string>): Promise<Uint8Array>;
}

/** A word of the channel in a language, by its key within `telegram`. */
export type Word = (locale: Locale, key: string, facts?: Record<string, string | number>) => string;

/** What the channel does and what happens to it, for the log and the figures. */
export interface Journal {
  event(
    kind:
      | 'poll'
      | 'poll-failed'
      | 'poll-stalled'
      | 'delivered'
      | 'delivery-failed'
      | 'refused'
      | 'blocked'
      | 'unreadable',
    facts?: Record<string, unknown>,
  ): void;
}

/** Waiting times in milliseconds. */
export interface Timing {
  /** How long the platform holds a poll open. */
  pollMs: number;
  /** A poll without an answer for this long is broken off and begun again. */
  stallMs: number;
  /** A request without an answer for this long has failed. */
  requestMs: number;
  /** First wait after a failure; doubles up to the longest. */
  backoffMs: number;
  longestBackoffMs: number;
  /** Length of a second in `retry_after`. */
  secondMs: number;
  /** A person sees that their answer is being worked on after this long. */
  typingAfterMs: number;
}

/** A stalled poll is noticed 45 s after it began, which leaves a network that only dawdles 15 s of grace. */
export const USUAL_TIMING: Timing = {
  pollMs: 30_000,
  stallMs: 45_000,
  requestMs: 30_000,
  backoffMs: 1000,
  longestBackoffMs: 30_000,
  secondMs: 1000,
  typingAfterMs: 500,
};
