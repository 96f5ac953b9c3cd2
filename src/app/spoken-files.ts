/** Spoken replies at this machine: written to files, and said where. */
import { mkdir, writeFile } from 'node:fs/promises';
import { join, resolve } from 'node:path';
import type { Say } from '../channels/telegram/ports.ts';
import type { Locale } from '../dialogues/event.ts';
import type { Message } from '../dialogues/message.ts';
import { translate } from '../language/texts.ts';
import type { Utterance } from '../store/entries.ts';

/** The latest replies are kept under names that come round again. */
const FILES = 10;

/** Writes an utterance to a file; gives the message that says where, or what is missing. */
export function spokenFiles(
  say: Say,
  folder: string,
): (parts: Utterance, locale: Locale) => Promise<Message[]> {
  let count = 0;
  return async (parts, locale) => {
    const note = await say('local', parts, locale);
    if (!('opus' in note))
      return note.instead === undefined ? [] : [{ kind: 'info', id: 'spoken', text: note.instead }];
    const file = resolve(join(folder, `reply-${(count % FILES) + 1}.ogg`));
    count += 1;
    try {
      await mkdir(folder, { recursive: true });
      await writeFile(file, note.opus);
    } catch {
      return [{ kind: 'error', id: 'spoken', text: translate(locale, 'voice:unwritable', { file }) }];
    }
    return [{ kind: 'info', id: 'spoken', text: translate(locale, 'voice:file', { file }) }];
  };
}
