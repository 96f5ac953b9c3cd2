/** What the platform refuses, as the public Bot API documentation states it (numbers beside each check). */
import { z } from 'zod';
import { plainText } from './html.ts';

/** The platform answers with 400 and this description. */
export class BadRequest extends Error {}

// sendMessage: "Text of the message to be sent, 1-4096 characters after entities parsing".
const LONGEST_TEXT = 4096;
// InlineKeyboardButton: "Data to be sent in a callback query to the bot when the button is pressed, 1-64 bytes".
const LONGEST_DATA = 64;
// answerCallbackQuery: "Text of the notification. If not specified, nothing will be shown to the user, 0-200 characters".
const LONGEST_NOTICE = 200;
// No number is documented for a keyboard's size; a hundred buttons is what the platform takes (from memory).
const MOST_BUTTONS = 100;

const chat = z.union([
  z.number().int(),
  z
    .string()
    .regex(/^-?\d+$/)
    .transform(Number),
]);
const data = z
  .string()
  .refine(
    (text) => Buffer.byteLength(text) >= 1 && Buffer.byteLength(text) <= LONGEST_DATA,
    'BUTTON_DATA_INVALID',
  );
const keyboard = z.strictObject({
  inline_keyboard: z
    .array(z.array(z.strictObject({ text: z.string().min(1), callback_data: data })).min(1))
    .refine((rows) => rows.flat().length <= MOST_BUTTONS, 'too many buttons'),
});
export type Keyboard = z.infer<typeof keyboard>['inline_keyboard'];

const noButtons = z.strictObject({ inline_keyboard: z.array(z.never()) });
// BotCommand: "Text of the command; 1-32 characters. Can contain only lowercase English letters, digits and underscores."
// and "Description of the command; 1-256 characters". setMyCommands: "At most 100 commands can be specified".
const command = z.strictObject({
  command: z.string().regex(/^[a-z0-9_]{1,32}$/),
  description: z.string().min(1).max(256),
});
const scope = z.strictObject({ type: z.enum(['default', 'all_private_chats', 'all_group_chats']) });

function isOpus(bytes: Buffer | undefined): boolean {
  return bytes?.toString('latin1', 0, 4) === 'OggS' && bytes.subarray(0, 64).includes('OpusHead');
}

/** Parameters of every method that the bot calls. What is not here is not called. */
const METHODS = {
  getMe: z.strictObject({}),
  getUpdates: z.strictObject({
    offset: z.number().int().optional(),
    // getUpdates: "Values between 1-100 are accepted."
    limit: z.number().int().min(1).max(100).optional(),
    timeout: z.number().int().min(0).optional(),
    allowed_updates: z.array(z.string()).optional(),
  }),
  deleteWebhook: z.strictObject({ drop_pending_updates: z.boolean().optional() }),
  setWebhook: z.strictObject({
    url: z.url({ protocol: /^https$/ }),
    // setWebhook: "1-256 characters. Only characters A-Z, a-z, 0-9, _ and - are allowed."
    secret_token: z.string().regex(/^[\w-]{1,256}$/),
    allowed_updates: z.array(z.string()).optional(),
  }),
  setMyCommands: z.strictObject({
    commands: z.array(command).max(100),
    scope,
    language_code: z.string().length(2).optional(),
  }),
  sendMessage: z.strictObject({
    chat_id: chat,
    text: z.string(),
    parse_mode: z.literal('HTML').optional(),
    reply_markup: keyboard.optional(),
    reply_parameters: z
      .strictObject({ message_id: z.number().int(), allow_sending_without_reply: z.boolean().optional() })
      .optional(),
  }),
  editMessageText: z.strictObject({
    chat_id: chat,
    message_id: z.number().int(),
    text: z.string(),
    parse_mode: z.literal('HTML').optional(),
    reply_markup: keyboard.optional(),
  }),
  editMessageReplyMarkup: z.strictObject({
    chat_id: chat,
    message_id: z.number().int(),
    reply_markup: z.union([keyboard, noButtons]).optional(),
  }),
  answerCallbackQuery: z.strictObject({
    callback_query_id: z.string().min(1),
    text: z.string().max(LONGEST_NOTICE).optional(),
  }),
  sendChatAction: z.strictObject({ chat_id: chat, action: z.literal('typing') }),
  sendPhoto: z.strictObject({
    chat_id: chat,
    photo: z.custom<UploadedFile | string>(),
    caption: z.string().max(1024).optional(),
  }),
  // sendVoice: "the audio must be in an .OGG file encoded with OPUS" and "up to 50 MB in size".
  sendVoice: z.strictObject({
    chat_id: chat,
    voice: z.custom<UploadedFile>(
      (voice) => isOpus((voice as UploadedFile).bytes) && (voice as UploadedFile).bytes.length <= 50_000_000,
      'the voice note is no OGG/OPUS file',
    ),
  }),
  sendDocument: z.strictObject({
    chat_id: chat,
    document: z.custom<UploadedFile | string>(),
    // sendDocument: "Document caption, 0-1024 characters after entities parsing".
    caption: z.string().max(1024).optional(),
  }),
  getFile: z.strictObject({ file_id: z.string().min(1) }),
} as const;

export interface UploadedFile {
  name: string;
  bytes: Buffer;
}

export type Method = keyof typeof METHODS;
export type Parameters<M extends Method> = z.infer<(typeof METHODS)[M]>;

/** Whether the platform knows the method. */
export function isMethod(name: string): name is Method {
  return Object.hasOwn(METHODS, name);
}

/** Parameters as the method takes them. Throws BadRequest. */
export function checked<M extends Method>(method: M, given: unknown): Parameters<M> {
  const parsed = METHODS[method].safeParse(given);
  if (parsed.success) return parsed.data as Parameters<M>;
  const [issue] = parsed.error.issues;
  throw new BadRequest(`${method}: ${issue?.path.join('.') ?? ''} ${issue?.message ?? ''}`);
}

/** The text that a person sees. Throws BadRequest where it is empty, too long or badly marked. */
export function seenText(text: string, mode: string | undefined): string {
  const read = mode === 'HTML' ? plainText(text) : { text };
  if ('wrong' in read) throw new BadRequest(`can't parse entities: ${read.wrong}`);
  if (read.text.trim() === '') throw new BadRequest('message text is empty');
  if (read.text.length > LONGEST_TEXT) throw new BadRequest('message is too long');
  return read.text;
}
