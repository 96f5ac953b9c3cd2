/** What people see in their chats. */
import type { Keyboard } from './limits.ts';

export interface SeenMessage {
  id: number;
  chat: number;
  /** As sent, with its marks. */
  html: string;
  /** As seen. */
  text: string;
  keyboard: Keyboard;
  /** As it was before any edit. */
  first: { html: string; keyboard: Keyboard };
  replyTo?: number;
  /** When it was sent, milliseconds since 1970. */
  at: number;
}

export interface Chats {
  sent: SeenMessage[];
  of(chat: number): SeenMessage[];
  byId(chat: number, id: number): SeenMessage | undefined;
  add(message: Omit<SeenMessage, 'id' | 'at' | 'first'>): SeenMessage;
}

/** Chats nobody has written in. */
export function newChats(): Chats {
  const sent: SeenMessage[] = [];
  const byChat = new Map<number, SeenMessage[]>();
  const of = (chat: number): SeenMessage[] => byChat.get(chat) ?? [];
  return {
    sent,
    of,
    byId: (chat, id) => of(chat).find((message) => message.id === id),
    add: (message) => {
      const { html, keyboard } = message;
      const seen = { ...message, first: { html, keyboard }, id: 1000 + sent.length, at: Date.now() };
      sent.push(seen);
      byChat.set(message.chat, [...of(message.chat), seen]);
      return seen;
    },
  };
}
