/** The platform's updates in the project's own words. Pure; nothing in them is believed beyond what is read here. */
import type { Message, MessageEntity, Update, User } from 'grammy/types';
import type { Locale } from '../../dialogues/event.ts';
import { LOCALES } from '../../dialogues/event.ts';
import type { Body } from '../../dialogues/message.ts';
import { pressOf } from './callback.ts';
import type { TelegramIncoming } from './ports.ts';

/** The bot itself, to know when a group speaks to it. */
export interface Self {
  id: number;
  username: string;
}

/** Kinds of update that are asked for. */
export const WANTED = ['message', 'callback_query'] as const;

/** Largest file a bot can fetch, as the public Bot API documentation states: 20 MB. */
const LARGEST_BYTES = 20_000_000;
/** A longer or larger recording is not one answer. */
const LONGEST_VOICE_S = 60;
const LARGEST_VOICE_BYTES = 2_000_000;
/** Data of no button: the press is answered as one of an old question. */
const NO_BUTTON = { version: 0, message: 0, choice: 0 } as const;
/** Contents that are answered, if only by saying that they say nothing here; what is not listed is no message. */
const ANSWERED = [
  'sticker',
  'video',
  'animation',
  'video_note',
  'document',
  'location',
  'contact',
  'dice',
  'poll',
] as const;

type Hints = TelegramIncoming['hints'];

interface Content {
  body: Body;
  hints: Hints;
}

function localeOf({ language_code }: User): Pick<Hints, 'locale'> {
  const locale: Locale | undefined = LOCALES.find((known) => language_code?.toLowerCase().startsWith(known));
  return locale === undefined ? {} : { locale };
}

function payloadOf(text: string): Pick<Hints, 'payload'> {
  const payload = /^\/start(?:@\w+)?\s+([\w-]{1,64})\s*$/.exec(text)?.[1];
  return payload === undefined ? {} : { payload };
}

/** The largest size of a photo that can be fetched, or an image sent as a file. */
function pictureOf({ photo, document }: Message): { file?: string; tooBig?: true } | undefined {
  if (photo !== undefined) {
    const fitting = photo.findLast(({ file_size }) => (file_size ?? 0) <= LARGEST_BYTES);
    return fitting === undefined ? { tooBig: true } : { file: fitting.file_id };
  }
  if (document?.mime_type?.startsWith('image/') !== true) return undefined;
  return (document.file_size ?? 0) > LARGEST_BYTES ? { tooBig: true } : { file: document.file_id };
}

function pictureContent(message: Message, words: string): Content | undefined {
  const picture = pictureOf(message);
  if (picture === undefined) return undefined;
  const { file, tooBig } = picture;
  if (file === undefined || tooBig === true)
    return { body: { kind: 'photo', file: '' }, hints: { tooBig: true } };
  const body: Body = words === '' ? { kind: 'photo', file } : { kind: 'text', text: words };
  return { body, hints: { photo: file } };
}

function voiceContent({ voice, audio }: Message): Content | undefined {
  const sound = voice ?? audio;
  if (sound === undefined) return undefined;
  const isBig = sound.duration > LONGEST_VOICE_S || (sound.file_size ?? 0) > LARGEST_VOICE_BYTES;
  return { body: { kind: 'voice', file: sound.file_id }, hints: isBig ? { tooBig: true } : {} };
}

const TABLE_NAME = /\.(csv|tsv|txt)$/i;

/** A table that was sent as a file, to be taken in. */
function tableContent({ document }: Message): Content | undefined {
  if (document === undefined) return undefined;
  const { file_name: name = '', mime_type: type = '', file_size: size = 0, file_id: file } = document;
  if (!TABLE_NAME.test(name) && !type.startsWith('text/')) return undefined;
  return { body: { kind: 'file', file, name }, hints: size > LARGEST_BYTES ? { tooBig: true } : {} };
}

/** What a message holds; undefined where it is a note of the platform, as of somebody joining. */
function contentOf(message: Message, words: string): Content | undefined {
  const special = pictureContent(message, words) ?? voiceContent(message) ?? tableContent(message);
  if (special !== undefined) return special;
  if (message.text !== undefined) return { body: { kind: 'text', text: words }, hints: payloadOf(words) };
  if (!ANSWERED.some((kind) => message[kind] !== undefined)) return undefined;
  return { body: { kind: 'text', text: words }, hints: {} };
}

/** The words of a message without the bot's name in them, and whether the name was there. */
function withoutName(message: Message, { username }: Self): { words: string; isNamed: boolean } {
  const text = message.text ?? message.caption ?? '';
  const entities: MessageEntity[] = message.entities ?? message.caption_entities ?? [];
  const name = `@${username.toLowerCase()}`;
  const textOf = ({ offset, length }: MessageEntity): string =>
    text.slice(offset, offset + length).toLowerCase();
  const isCommand = entities.some((entity) => entity.type === 'bot_command' && textOf(entity).endsWith(name));
  const mention = entities.find((entity) => entity.type === 'mention' && textOf(entity) === name);
  if (mention === undefined) return { words: text, isNamed: isCommand };
  const around = text.slice(0, mention.offset) + text.slice(mention.offset + mention.length);
  return { words: around.trim(), isNamed: true };
}

/** Conversations of a group are kept apart by person: nothing of one is shown to another as theirs. */
function placeOf(chat: { id: number; type: string }, from: User): { conversation: string; person: string } {
  const inGroup = chat.type === 'group' || chat.type === 'supergroup';
  const conversation = inGroup ? `telegram:${chat.id}:${from.id}` : `telegram:${chat.id}`;
  return { conversation, person: `telegram:${from.id}` };
}

function incomingMessage(key: string, message: Message, self: Self): TelegramIncoming | undefined {
  const { from, chat } = message;
  if (from === undefined || from.is_bot || chat.type === 'channel') return undefined;
  const { words, isNamed } = withoutName(message, self);
  const isPrivate = chat.type === 'private';
  const isReply = message.reply_to_message?.from?.id === self.id;
  if (!isPrivate && !isNamed && !isReply) return undefined;
  const content = contentOf(message, words);
  if (content === undefined) return undefined;
  const replyTo = isPrivate ? {} : { replyTo: message.message_id };
  const hints = { ...localeOf(from), ...content.hints, ...replyTo };
  return { channel: 'telegram', key, ...placeOf(chat, from), body: content.body, hints };
}

function incomingPress(
  key: string,
  query: NonNullable<Update['callback_query']>,
): TelegramIncoming | undefined {
  const { from, message, data, id } = query;
  if (message === undefined) return undefined;
  const press = pressOf(data ?? '') ?? NO_BUTTON;
  const hints = { ...localeOf(from), press, query: id };
  const body: Body = { kind: 'choose', option: '' };
  return { channel: 'telegram', key, ...placeOf(message.chat, from), body, hints };
}

/** The update as the bot takes it; undefined where it is not for the bot. */
export function incomingOf(update: Update, self: Self): TelegramIncoming | undefined {
  const key = String(update.update_id);
  if (update.message !== undefined) return incomingMessage(key, update.message, self);
  return update.callback_query === undefined ? undefined : incomingPress(key, update.callback_query);
}

/** Where a conversation is held. */
export function chatOf(conversation: string): { chat: number; isGroup: boolean } {
  const [, chat = '', person] = conversation.split(':');
  return { chat: Number(chat), isGroup: person !== undefined };
}
