/** One call or two of the platform for each message that waits. */
import type { Api } from 'grammy';
import { InputFile } from 'grammy';
import { anyFailureOf } from './failure.ts';
import { keyboardOf } from './keyboard.ts';
import { answeredPage, pagesOf } from './look.ts';
import { escaped } from './html.ts';
import type { Attachments, DeliveryMark, Outgoing, Post, Say, Word } from './ports.ts';
import { chatOf } from './update.ts';

export interface SendParts {
  api: Api;
  post: Post;
  word: Word;
  /** Undefined where nobody speaks. */
  say?: Say | undefined;
  attachments: Attachments;
}

/** Longest notice in answer to a press, as the public Bot API documentation states. */
const LONGEST_NOTICE = 200;
/** Longest caption, as the public Bot API documentation states. */
const LONGEST_CAPTION = 1024;

/** A failure that leaves things as they should be: the message is as wanted, or gone, or the press is too old. */
function isHarmless(error: unknown): boolean {
  return anyFailureOf(error).kind === 'refused';
}

async function unlessRefused(call: Promise<unknown>): Promise<void> {
  try {
    await call;
  } catch (error) {
    if (!isHarmless(error)) throw error;
  }
}

/** Answers a press with nothing but the end of its waiting sign. */
export async function acknowledge(query: string, { api }: SendParts): Promise<void> {
  await api.answerCallbackQuery(query);
}

async function notice(entry: Outgoing, query: string, { api }: SendParts): Promise<void> {
  await unlessRefused(api.answerCallbackQuery(query, { text: entry.message.text.slice(0, LONGEST_NOTICE) }));
}

/** Shows all choices of a message sent before. */
async function unfold(entry: Outgoing, of: number, query: string, { api, post }: SendParts): Promise<void> {
  const shown = post.byId(of);
  if (shown?.sentAs !== undefined) {
    const keyboard = keyboardOf({ id: of, version: shown.version, message: entry.message }, undefined);
    const { chat } = chatOf(entry.conversation);
    await unlessRefused(
      api.editMessageReplyMarkup(
        chat,
        shown.sentAs,
        keyboard === undefined ? {} : { reply_markup: keyboard },
      ),
    );
  }
  await unlessRefused(api.answerCallbackQuery(query));
}

/** Sends the next page of a message. */
async function page(entry: Outgoing, { api, word }: SendParts): Promise<DeliveryMark> {
  const pages = pagesOf(entry, word);
  const index = Math.min(entry.partsSent, pages.length - 1);
  const { html = '', keyboard } = pages[index] ?? {};
  const { message_id } = await api.sendMessage(chatOf(entry.conversation).chat, html, {
    parse_mode: 'HTML',
    ...(keyboard === undefined ? {} : { reply_markup: keyboard }),
    ...(entry.replyTo === undefined || index > 0
      ? {}
      : { reply_parameters: { message_id: entry.replyTo, allow_sending_without_reply: true } }),
  });
  const done = index === pages.length - 1;
  return { id: entry.id, partsSent: index + 1, done, sentAs: message_id, keyboard: keyboard !== undefined };
}

type SpokenDeed = Extract<NonNullable<Outgoing['deed']>, { as: 'spoken' }>;

/** Sends a voice note. It was said in text before, so one that the platform refuses is no loss. */
async function spoken(entry: Outgoing, { parts }: SpokenDeed, { api, say }: SendParts): Promise<void> {
  const note = await say?.(entry.conversation, parts, entry.locale);
  const { chat } = chatOf(entry.conversation);
  if (note === undefined) return;
  if ('opus' in note) await unlessRefused(api.sendVoice(chat, new InputFile(note.opus, 'reply.ogg')));
  else if (note.instead !== undefined)
    await api.sendMessage(chat, escaped(note.instead), { parse_mode: 'HTML' });
}

/** Sends a picture or a file with its words beneath; undefined where the message has none. */
function attachment(entry: Outgoing, { api, attachments }: SendParts): Promise<DeliveryMark> | undefined {
  const { picture, file, text } = entry.message;
  const { chat } = chatOf(entry.conversation);
  const caption = { caption: text.slice(0, LONGEST_CAPTION) };
  const sent = ({ message_id: sentAs }: { message_id: number }): DeliveryMark => {
    return { id: entry.id, partsSent: 1, done: true, sentAs };
  };
  if (picture !== undefined)
    return attachments
      .picture(picture)
      .then((png) => api.sendPhoto(chat, new InputFile(png, `${entry.message.id}.png`), caption))
      .then(sent);
  if (file !== undefined)
    return attachments
      .file(file)
      .then((bytes) => api.sendDocument(chat, new InputFile(bytes, file.name), caption))
      .then(sent);
  return undefined;
}

/** Delivers a message or its next page and says how far it got. Rejects with the error of the call. */
export async function deliver(entry: Outgoing, parts: SendParts): Promise<DeliveryMark> {
  const { deed, id } = entry;
  if (deed === undefined) return attachment(entry, parts) ?? page(entry, parts);
  if (deed.as === 'notice') await notice(entry, deed.query, parts);
  else if (deed.as === 'spoken') await spoken(entry, deed, parts);
  else await unfold(entry, deed.of, deed.query, parts);
  return { id, partsSent: 1, done: true };
}

/** Takes the buttons off a message and puts the answer in their place. */
export async function retire(entry: Outgoing, { api, word }: SendParts): Promise<void> {
  if (entry.sentAs === undefined) return;
  const { chat } = chatOf(entry.conversation);
  const html = answeredPage(entry, word);
  await unlessRefused(
    html === undefined
      ? api.editMessageReplyMarkup(chat, entry.sentAs)
      : api.editMessageText(chat, entry.sentAs, html, { parse_mode: 'HTML' }),
  );
}
