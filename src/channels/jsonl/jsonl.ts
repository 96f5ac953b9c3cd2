/** One JSON object a line in and out: for other messaging platforms and for tests. */
import { once } from 'node:events';
import { basename } from 'node:path';
import { createInterface } from 'node:readline';
import type { Readable, Writable } from 'node:stream';
import { z } from 'zod';
import type { Body, Message } from '../../dialogues/message.ts';
import type { LocalTalk } from '../local-talk.ts';

/** How long a driver may stay silent before the bot opens the conversation itself. */
const OPENING_DELAY_MS = 250;

const lineSchema = z.union([
  z.strictObject({ text: z.string() }).transform((line): Body => ({ kind: 'text', text: line.text })),
  z.strictObject({ choose: z.string() }).transform((line): Body => ({ kind: 'choose', option: line.choose })),
  z.strictObject({ voice: z.string() }).transform((line): Body => ({ kind: 'voice', file: line.voice })),
  z.strictObject({ photo: z.string() }).transform((line): Body => ({ kind: 'photo', file: line.photo })),
  z
    .strictObject({ file: z.string() })
    .transform((line): Body => ({ kind: 'file', file: line.file, name: basename(line.file) })),
]);

/** The message in a line, or undefined where it is not one. */
function bodyOf(line: string): Body | undefined {
  try {
    return lineSchema.safeParse(JSON.parse(line)).data;
  } catch {
    return undefined;
  }
}

function toBase64(bytes: Uint8Array): string {
  return Buffer.from(bytes).toString('base64');
}

export interface JsonlOptions {
  input: Readable;
  output: Writable;
  talk: LocalTalk;
  /** Messages carry the suspects with their probabilities. */
  explain: boolean;
}

/** What a driver sees of a message: the suspects only where asked for, or where the case has ended. */
function shownFields(message: Message, explain: boolean): Partial<Message> {
  const shown: Partial<Message> = { ...message };
  delete shown.expects;
  delete shown.picture;
  delete shown.file;
  delete shown.stands;
  delete shown.secret;
  if (!explain && message.kind !== 'result') delete shown.belief;
  return shown;
}

/** Serves the conversation until the input ends. */
export async function serveJsonl({ input, output, talk, explain }: JsonlOptions): Promise<void> {
  const write = async (value: unknown): Promise<void> => {
    if (!output.write(JSON.stringify(value) + '\n')) await once(output, 'drain');
  };
  const turn = async (messages: readonly Message[]): Promise<void> => {
    for (const message of messages) {
      const shown = shownFields(message, explain);
      const bytes = await talk.attached(message);
      const name = message.file?.name ?? `${message.id}.png`;
      await write(bytes === undefined ? shown : { ...shown, name, base64: toBase64(bytes) });
    }
    await write({ kind: 'turn-end', state: talk.state() });
  };
  const badLine = (): Message => ({ kind: 'error', id: 'bad-line', text: talk.word('bad-line') });
  const answer = async (line: string): Promise<Message[]> => {
    const body = bodyOf(line);
    if (body === undefined) return [badLine()];
    return body.kind === 'file' ? talk.sendFile(body.file) : talk.send(body);
  };
  const opened = talk.send.bind(talk, { kind: 'text', text: '/start' });
  const lines = createInterface({ input, crlfDelay: Infinity });
  const queue = lines[Symbol.asyncIterator]();
  let next = queue.next();
  const silence = new Promise<'silent'>((resolve) => setTimeout(resolve, OPENING_DELAY_MS, 'silent').unref());
  if ((await Promise.race([next, silence])) === 'silent') await turn(await opened());
  for (let line = await next; line.done !== true; line = await next) {
    next = queue.next();
    if (line.value.trim() !== '') await turn(await answer(line.value));
  }
}
