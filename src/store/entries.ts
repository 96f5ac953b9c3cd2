/** What goes into the inbox and comes out of the outbox. */
import type { Locale } from '../dialogues/event.ts';
import type { Body, Message } from '../dialogues/message.ts';

/** A pressed button, as its callback data told. */
export interface Press {
  /** Version of the conversation in which the message with the button was written. */
  version: number;
  /** Id of that message in the outbox. */
  message: number;
  /** Index of the option, or `more` for the rarer ones. */
  choice: number | 'more';
}

/** What a platform tells beside the message itself. */
export interface Hints {
  /** The person's own language setting. */
  locale?: Locale;
  press?: Press;
  /** Platform's id of the press, which wants an answer of its own. */
  query?: string;
  /** A photo that came with the message. */
  photo?: string;
  /** The photo or recording is larger than can be taken. */
  tooBig?: true;
  /** Platform's id of the message to answer visibly, as in a group. */
  replyTo?: number;
  /** What a link that led here carried. */
  payload?: string;
}

/** A message as a channel received it. */
export interface Incoming {
  channel: string;
  /** Names the update within its channel: a second one with the same key changes nothing. */
  key: string;
  conversation: string;
  person: string;
  body: Body;
  hints?: Hints;
}

/** An update on its way into the inbox. */
export interface Arrival extends Incoming {
  /** Not to be handled before this time, milliseconds since 1970; at once where undefined. */
  dueAt?: number;
  /** To be handled before others of its conversation that wait. */
  urgent?: boolean;
  /** Said at once, if the update is new. */
  notice?: { message: Message; locale: Locale };
}

export interface InboxEntry extends Incoming {
  id: number;
}

/** What is said aloud of a turn: stretches of speech, those that protect a person slowly. */
export type Utterance = readonly { text: string; slow?: boolean }[];

/** How a message is delivered other than as a message of its own. */
export type Deed =
  /** As a short notice in answer to a press. */
  | { as: 'notice'; query: string }
  /** By showing all choices of a message sent before. */
  | { as: 'unfold'; of: number; query: string }
  /** As a voice note. */
  | { as: 'spoken'; parts: Utterance };

export interface OutboxEntry {
  id: number;
  conversation: string;
  message: Message;
  locale: Locale;
  /** Version of the conversation in which the message was written. */
  version: number;
  deed?: Deed;
  replyTo?: number;
  /** Parts of a long message that are delivered already. */
  partsSent: number;
  /** The platform's id of the message, once delivered. */
  sentAs?: number;
  /** Index of the option that was pressed. */
  chosen?: number;
}

/** Messages to a conversation other than that of the turn. */
export interface Letter {
  conversation: string;
  locale: Locale;
  messages: readonly Message[];
  /** The pool they tell of: removed with it. */
  about?: string;
}

/** What became of a delivery. */
export interface Mark {
  id: number;
  partsSent: number;
  done: boolean;
  sentAs?: number;
  /** It shows buttons now. */
  keyboard?: boolean;
  /** Why it can never be delivered. */
  failure?: string;
}

/** A photo and the step it answers. */
export interface PhotoNote {
  file: string;
  consult?: string;
  step?: string;
}
