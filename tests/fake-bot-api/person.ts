/** A person with a phone: what they send, and what they see. */
import { setTimeout as pause } from 'node:timers/promises';
import type { SeenMessage } from './chats.ts';
import { SELF } from './methods.ts';
import type { FakeBotApi } from './server.ts';

export interface PersonOptions {
  language?: string;
  /** Chat id; the person's own chat where undefined, a group where negative. */
  chat?: number;
}

export interface Person {
  id: number;
  chat: number;
  says(text: string, extra?: Record<string, unknown>): number;
  /** Sends something other than a text. */
  sends(content: Record<string, unknown>): number;
  /** Presses a button by its label or the end of its callback data. */
  presses(label: string, message?: SeenMessage): number;
  /** Sends callback data that no button had. */
  forges(data: string, message?: SeenMessage): number;
  messages(): SeenMessage[];
  last(): SeenMessage | undefined;
  /** The last message with buttons. */
  question(): SeenMessage;
  /** Waits until there are more messages than now, and no more come for a moment. */
  answered(before: number): Promise<SeenMessage>;
  notice(query: number): string | undefined;
}

let nextMessage = 1;

function commandEntities(text: string): object {
  const command = /^\/\w+(?:@\w+)?/.exec(text)?.[0];
  return command === undefined
    ? {}
    : { entities: [{ type: 'bot_command', offset: 0, length: command.length }] };
}

/** A person who writes to the bot. */
export function personAt(
  fake: FakeBotApi,
  id: number,
  { language = 'en', chat = id }: PersonOptions = {},
): Person {
  const from = { id, is_bot: false, first_name: `Person ${id}`, language_code: language };
  const place =
    chat < 0
      ? { id: chat, type: 'supergroup', title: 'Pool crew' }
      : { id: chat, type: 'private', first_name: from.first_name };
  const date = (): number => Math.floor(Date.now() / 1000);
  const sends = (content: Record<string, unknown>): number =>
    fake.queue.add({ message: { message_id: nextMessage++, date: date(), chat: place, from, ...content } });
  const messages = (): SeenMessage[] => fake.chats.of(chat);
  const question = (): SeenMessage => {
    const found = messages().findLast(({ keyboard }) => keyboard.length > 0);
    if (found === undefined) throw new Error(`Person ${id} sees no buttons`);
    return found;
  };
  const forges = (data: string, shown?: SeenMessage): number => {
    const message = {
      message_id: shown?.id ?? 1,
      date: date(),
      chat: place,
      from: SELF,
      text: shown?.text ?? '',
    };
    const query: number = fake.queue.add({
      callback_query: {
        id: `q${fake.queue.waiting()}-${nextMessage++}`,
        from,
        message,
        chat_instance: '1',
        data,
      },
    });
    return query;
  };
  return {
    id,
    chat,
    says: (text, extra = {}) => sends({ text, ...commandEntities(text), ...extra }),
    sends,
    presses: (label, shown = question()) => {
      const button = shown.keyboard.flat().find(({ text }) => text === label);
      if (button === undefined) throw new Error(`No button "${label}" on: ${shown.text}`);
      return forges(button.callback_data, shown);
    },
    forges,
    messages,
    last: () => messages().at(-1),
    question,
    notice: () => [...fake.notices.values()].at(-1),
    answered: async (before) => {
      const until = Date.now() + 20_000;
      let seen = before;
      while (Date.now() < until) {
        await pause(25);
        const now = messages().length;
        if (now > before && now === seen) return messages().at(-1)!;
        seen = now;
      }
      throw new Error(`Person ${id} got no answer after: ${messages().at(-1)?.text ?? 'nothing'}`);
    },
  };
}
