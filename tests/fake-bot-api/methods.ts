/** What each method does. */
import type { Chats } from './chats.ts';
import type { Method, Parameters } from './limits.ts';
import { BadRequest, seenText } from './limits.ts';
import type { UpdateQueue } from './queue.ts';

export const SELF = { id: 77, is_bot: true, first_name: 'Padside', username: 'padside_test_bot' };

export interface World {
  chats: Chats;
  queue: UpdateQueue;
  /** Notices that were shown, by id of the press; empty text where only the waiting sign went. */
  notices: Map<string, string>;
  webhook: { url: string; secret: string } | undefined;
  commands: { scope: string; language: string | undefined; names: string[] }[];
  typing: number[];
  files: Map<string, Buffer>;
}

/** What a person sees of a voice note. */
export const VOICE_NOTE = '(voice note)';

type Handlers = { [M in Method]: (parameters: Parameters<M>, world: World) => unknown };

function changed(world: World, chat: number, id: number): NonNullable<ReturnType<Chats['byId']>> {
  const message = world.chats.byId(chat, id);
  if (message === undefined) throw new BadRequest('message to edit not found');
  return message;
}

/** A message as the platform returns it. */
function returned(id: number, chat: number, text: string): object {
  return {
    message_id: id,
    date: Math.floor(Date.now() / 1000),
    chat: { id: chat, type: chat < 0 ? 'supergroup' : 'private' },
    from: SELF,
    text,
  };
}

export const HANDLERS: Handlers = {
  getMe: () => ({
    ...SELF,
    can_join_groups: true,
    can_read_all_group_messages: false,
    supports_inline_queries: false,
  }),
  getUpdates: ({ offset, limit = 100, timeout = 0 }, { queue }) => queue.get(offset, limit, timeout * 1000),
  deleteWebhook: (_, world) => {
    world.webhook = undefined;
    return true;
  },
  setWebhook: ({ url, secret_token }, world) => {
    world.webhook = { url, secret: secret_token };
    return true;
  },
  setMyCommands: ({ commands, scope, language_code }, world) => {
    world.commands.push({
      scope: scope.type,
      language: language_code,
      names: commands.map(({ command }) => command),
    });
    return true;
  },
  sendMessage: ({ chat_id, text, parse_mode, reply_markup, reply_parameters }, { chats }) => {
    const seen = seenText(text, parse_mode);
    const keyboard = reply_markup?.inline_keyboard ?? [];
    const replyTo = reply_parameters === undefined ? {} : { replyTo: reply_parameters.message_id };
    const { id } = chats.add({ chat: chat_id, html: text, text: seen, keyboard, ...replyTo });
    return returned(id, chat_id, seen);
  },
  editMessageText: ({ chat_id, message_id, text, parse_mode, reply_markup }, world) => {
    const message = changed(world, chat_id, message_id);
    message.text = seenText(text, parse_mode);
    message.html = text;
    message.keyboard = reply_markup?.inline_keyboard ?? [];
    return returned(message_id, chat_id, message.text);
  },
  editMessageReplyMarkup: ({ chat_id, message_id, reply_markup }, world) => {
    const message = changed(world, chat_id, message_id);
    const keyboard = reply_markup?.inline_keyboard ?? [];
    if (JSON.stringify(keyboard) === JSON.stringify(message.keyboard))
      throw new BadRequest('message is not modified');
    message.keyboard = keyboard;
    return returned(message_id, chat_id, message.text);
  },
  answerCallbackQuery: ({ callback_query_id, text = '' }, { notices }) => {
    if (notices.has(callback_query_id))
      throw new BadRequest('query is too old and response timeout expired or query ID is invalid');
    notices.set(callback_query_id, text);
    return true;
  },
  sendChatAction: ({ chat_id }, { typing }) => {
    typing.push(chat_id);
    return true;
  },
  sendPhoto: ({ chat_id, photo, caption = '' }, { chats, files }) => {
    const { id } = chats.add({ chat: chat_id, html: caption, text: caption, keyboard: [] });
    if (typeof photo !== 'string') files.set(`sent-${id}`, photo.bytes);
    return returned(id, chat_id, caption);
  },
  sendVoice: ({ chat_id, voice }, { chats, files }) => {
    const { id } = chats.add({ chat: chat_id, html: '', text: VOICE_NOTE, keyboard: [] });
    files.set(`sent-${id}`, voice.bytes);
    return returned(id, chat_id, '');
  },
  sendDocument: ({ chat_id, document, caption = '' }, { chats, files }) => {
    const { id } = chats.add({ chat: chat_id, html: caption, text: caption, keyboard: [] });
    if (typeof document !== 'string') files.set(`sent-${id}`, document.bytes);
    return returned(id, chat_id, caption);
  },
  getFile: ({ file_id }, { files }) => {
    const bytes = files.get(file_id);
    if (bytes === undefined) throw new BadRequest('wrong file_id or the file is temporarily unavailable');
    // getFile: "bots can download files of up to 20MB in size".
    if (bytes.length > 20_000_000) throw new BadRequest('file is too big');
    return { file_id, file_unique_id: file_id, file_size: bytes.length, file_path: `photos/${file_id}` };
  },
};
