/**
 * Plays a conversation with the demo pool in the terminal channel and prints it, with what the person typed.
 * `--write` puts it into the README.
 */
import { readFileSync, writeFileSync } from 'node:fs';
import { PassThrough } from 'node:stream';
import { createBot } from '../src/app/bot.ts';
import { localTalk, withDemoPool } from '../src/app/local.ts';
import { serveTerminal } from '../src/channels/terminal/terminal.ts';
import type { LocalTalk } from '../src/channels/local-talk.ts';
import type { Message } from '../src/dialogues/message.ts';
import { openStore } from '../src/store/store.ts';

/** What the owner of the demo pool types at each question: the leaf canister in the hose is full. */
const REPLIES: Record<string, string> = {
  complaint: 'the cleaner is hardly moving',
  'filter-pressure': '12 psi',
  'pump-vacuum': '9.5',
  'return-flow': 'strong',
  'pump-lid-look': 'full of water',
  'hose-hand-feel': 'weak',
  'canister-look': 'full of leaves',
  'canister-full': 'yes',
  baseline: 'no',
};
/** After which of the answers the owner asks why. */
const ASKS_WHY_AFTER = 2;

const README = new URL('../README.md', import.meta.url);
const MARKS = { from: '<!-- transcript -->', to: '<!-- /transcript -->' };

/** The conversation as it stands on the screen. */
export async function transcript(): Promise<string> {
  let time = Date.UTC(2026, 4, 9, 9, 0);
  let count = 0;
  const now = (): number => (time += 20_000);
  const freshId = (): string => `id-${(count += 1)}`;
  const store = openStore(':memory:');
  const bot = createBot({ store, now, freshId, locale: 'en', role: 'owner' });
  withDemoPool(store, now);
  const talk = localTalk(bot, store, now, freshId, 'en');
  const input = new PassThrough();
  const output = new PassThrough();
  const screen: string[] = [];
  let asked: Message | undefined;
  let answers = 0;
  let ended = false;

  const reply = (): string => {
    if (answers++ === ASKS_WHY_AFTER) return 'why';
    if (asked?.kind === 'caution') return 'ok';
    return REPLIES[asked?.id ?? ''] ?? '1';
  };
  const heard: LocalTalk = {
    ...talk,
    send: (body) => {
      const messages = talk.send(body);
      asked = messages.at(-1);
      ended = messages.some(({ id }) => id === 'afterwards');
      return messages;
    },
  };
  output.on('data', (chunk: Buffer) => {
    screen.push(chunk.toString());
    // The person answers when the prompt shows.
    if (!chunk.toString().endsWith('> ')) return;
    if (ended) input.end();
    else {
      const line = reply();
      screen.push(`${line}\n`);
      input.write(`${line}\n`);
    }
  });
  await serveTerminal({ input, output, talk: heard, colour: false });
  store.close();
  return screen.join('').trim();
}

const text = await transcript();
if (process.argv.includes('--write')) {
  const readme = readFileSync(README, 'utf8');
  const before = readme.slice(0, readme.indexOf(MARKS.from) + MARKS.from.length);
  const after = readme.slice(readme.indexOf(MARKS.to));
  writeFileSync(README, `${before}\n\n\`\`\`text\n${text}\n\`\`\`\n\n${after}`);
} else process.stdout.write(`${text}\n`);
