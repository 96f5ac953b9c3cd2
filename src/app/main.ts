/** Start-up: configuration, store, bot, channel; and plain words where one of them fails. */
import { randomUUID } from 'node:crypto';
import { serveJsonl } from '../channels/jsonl/jsonl.ts';
import { serveTerminal } from '../channels/terminal/terminal.ts';
import { breachesOf } from '../knowledge/rules/index.ts';
import { TRADE } from '../knowledge/trade.ts';
import { translate } from '../language/texts.ts';
import { StoreUnusable } from '../store/database.ts';
import type { Store } from '../store/store.ts';
import { openStore } from '../store/store.ts';
import { createBot } from './bot.ts';
import type { Config } from './config.ts';
import { ConfigInvalid, readConfig } from './config.ts';
import { voicedTalk, withDemoPool } from './local.ts';
import { logTo } from './log-file.ts';
import { StartFailed } from './start-failed.ts';
import type { Voice } from './voice.ts';
import { tidied, voiceOf } from './voice.ts';

/** Serves the one person at this machine. */
async function serveLocally(config: Config, store: Store, voice: Voice): Promise<void> {
  const now = (): number => Date.now();
  const { locale, role } = config;
  const log = config.logFile === undefined ? undefined : logTo(config.logFile).log;
  const bot = createBot({
    store,
    now,
    freshId: randomUUID,
    locale,
    role,
    onErased: (person) => void voice.kept.forget(person).catch(() => undefined),
    ...(log === undefined ? {} : { log }),
  });
  if (config.demo) withDemoPool(store, now);
  const talk = voicedTalk(bot, store, now, randomUUID, locale, voice);
  const { stdin: input, stdout: output } = process;
  if (config.channel === 'jsonl') await serveJsonl({ input, output, talk, explain: config.explain });
  else
    await serveTerminal({ input, output, talk, colour: output.isTTY && process.env.NO_COLOR === undefined });
}

/** Data with a hole in it must not advise anybody. */
function checkKnowledge(): void {
  const breaches = breachesOf(TRADE);
  if (breaches.length === 0) return;
  const lines = breaches.map(({ path, message, tip }) => `${path}: ${message} (${tip})`);
  throw new StartFailed(
    [translate('en', 'app:knowledge-broken', { count: breaches.length }), ...lines].join('\n'),
  );
}

async function serve(config: Config): Promise<void> {
  checkKnowledge();
  const store = openStore(config.database);
  const voice = voiceOf(config.voice);
  try {
    await tidied(voice, Date.now());
    if (config.telegram === undefined) {
      await serveLocally(config, store, voice);
      return;
    }
    // Loaded only where it is used: the terminal opens without it.
    const { serveTelegram } = await import('./serve-telegram.ts');
    await serveTelegram(config.telegram, store, voice, config.logFile);
  } finally {
    store.close();
  }
}

/** What to tell the person who started the program, or undefined where it is a bug. */
function plainWords(error: unknown): string | undefined {
  if (error instanceof ConfigInvalid) return error.problems.join('\n');
  if (error instanceof StoreUnusable) return translate('en', 'app:store-readonly', { reason: error.reason });
  if (error instanceof StartFailed) return error.message;
  return undefined;
}

// A reader that went away, as `head` does, ends the conversation and is no error.
process.stdout.on('error', (error: NodeJS.ErrnoException) => process.exit(error.code === 'EPIPE' ? 0 : 1));

try {
  await serve(readConfig(process.argv.slice(2), process.env));
} catch (error) {
  const words = plainWords(error);
  if (words === undefined) throw error;
  process.stderr.write(`${words}\n`);
  process.exitCode = 1;
}
