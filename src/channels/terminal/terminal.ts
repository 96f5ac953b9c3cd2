/** The conversation in a terminal, or over a pipe. */
import { createInterface } from 'node:readline';
import type { Readable, Writable } from 'node:stream';
import type { Body, Message } from '../../dialogues/message.ts';
import type { LocalTalk } from '../local-talk.ts';
import { choicesOf, screenOf } from './screen.ts';

export interface TerminalOptions {
  input: Readable;
  output: Writable & { columns?: number };
  talk: LocalTalk;
  colour: boolean;
}

/**
 * A typed number stands for the choice with that number, save where a number is what was asked for. `/hear FILE` is a
 * voice note.
 */
function bodyOf(line: string, open: Message | undefined, unfolded: boolean): Body | 'more' {
  const recording = /^\s*\/hear\s+(\S.*?)\s*$/.exec(line)?.[1];
  if (recording !== undefined) return { kind: 'voice', file: recording };
  const number = /^\s*(\d{1,2})\s*[.)]?\s*$/.exec(line)?.[1];
  if (open === undefined || number === undefined || open.expects === 'reading' || open.expects === 'amount')
    return { kind: 'text', text: line };
  const { shown, more } = choicesOf(open, unfolded);
  const choice = shown[Number(number) - 1];
  if (choice !== undefined) return { kind: 'choose', option: choice.id };
  return more && Number(number) === shown.length + 1 ? 'more' : { kind: 'text', text: line };
}

/** Serves the conversation until the input ends. */
export async function serveTerminal({ input, output, talk, colour }: TerminalOptions): Promise<void> {
  const reader = createInterface({ input, output, terminal: false, crlfDelay: Infinity });
  // Taken before anything is said: a line that came earlier than this would be lost.
  const lines = reader[Symbol.asyncIterator]();
  let open: Message | undefined;
  let unfolded = false;

  const print = (message: Message): void => {
    const screen = screenOf(output.columns, colour, (key, facts) => talk.word(key, facts));
    output.write(screen.lines(message, unfolded).join('\n') + '\n');
  };
  const hear = (messages: readonly Message[]): void => {
    unfolded = false;
    messages.forEach(print);
    const last = messages.at(-1);
    if (last !== undefined)
      open = last.options === undefined && last.expects === undefined ? undefined : last;
    output.write('> ');
  };

  hear(await talk.send({ kind: 'text', text: '/start' }));
  for await (const line of lines) {
    const body = bodyOf(line, open, unfolded);
    if (body === 'more' && open !== undefined) {
      unfolded = true;
      print(open);
      output.write('> ');
    } else if (body !== 'more') hear(await talk.send(body));
  }
  output.write(`\n${talk.word('terminal.bye')}\n`);
}
