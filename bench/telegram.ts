/**
 * How many updates a second the bot takes, and how long each waits for its answer, beside a bot that only echoes: the
 * plain chat library, nothing stored. Both are processes of their own against the same fake platform on loopback.
 */
import type { ChildProcess } from 'node:child_process';
import { spawn } from 'node:child_process';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import { fileURLToPath } from 'node:url';
import { personAt } from '../tests/fake-bot-api/person.ts';
import { bundled, startBot } from '../tests/fake-bot-api/process.ts';
import type { FakeBotApi } from '../tests/fake-bot-api/server.ts';
import { startFakeBotApi } from '../tests/fake-bot-api/server.ts';

const PEOPLE = 200;
const ROUNDS = 10;
const QUIET_PEOPLE = 60;
const QUIET_ROUNDS = 5;

const ECHO = `
import { Bot } from 'grammy';
const bot = new Bot(process.env.TOKEN, { client: { apiRoot: process.env.ROOT } });
bot.on('message:text', (context) => context.reply(context.message.text));
void bot.start();
`;

interface Run {
  perSecond: number;
  messages: number;
  p50: number;
  p99: number;
}

/** What each person sends: a start, and readings of gauges after it, which are understood, judged and recorded. */
function textOf(round: number): string {
  if (round === 0) return '/start';
  return round === 1 ? 'owner' : `filter ${12 + round}.5 psi`;
}

function quantile(sorted: readonly number[], share: number): number {
  return sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * share))] ?? NaN;
}

async function until(isDone: () => boolean): Promise<void> {
  while (!isDone()) await pause(1);
}

/** Everything at once: how many updates a second come out answered. */
async function flood(fake: FakeBotApi): Promise<{ perSecond: number; messages: number }> {
  const people = Array.from({ length: PEOPLE }, (_, n) => personAt(fake, 20_000 + n));
  const before = fake.chats.sent.length;
  const began = Date.now();
  for (let round = 0; round < ROUNDS; round += 1) for (const person of people) person.says(textOf(round));
  const last = 12 + ROUNDS - 1;
  const isLast = (text: string): boolean => text.includes(`${last}.5 psi`);
  const waiting = new Set(people);
  await until(() => {
    for (const person of waiting)
      if (isLast(person.last()?.text ?? '') || person.messages().some(({ text }) => isLast(text)))
        waiting.delete(person);
    return waiting.size === 0;
  });
  return {
    perSecond: (PEOPLE * ROUNDS * 1000) / (Date.now() - began),
    messages: fake.chats.sent.length - before,
  };
}

/** One after the other, as people write: how long from the update to the call that sends its answer. */
async function waits(fake: FakeBotApi): Promise<number[]> {
  const people = Array.from({ length: QUIET_PEOPLE }, (_, n) => personAt(fake, 30_000 + n));
  const times: number[] = [];
  for (let round = 0; round < QUIET_ROUNDS; round += 1)
    for (const person of people) {
      let answeredAt: number | undefined;
      fake.onSend = () => (answeredAt ??= performance.now());
      const began = performance.now();
      person.says(textOf(round));
      await until(() => answeredAt !== undefined);
      times.push((answeredAt ?? NaN) - began);
      // Further messages of the same answer come meanwhile.
      await pause(30);
    }
  return times.sort((a, b) => a - b);
}

async function measured(fake: FakeBotApi): Promise<Run> {
  await until(() => fake.calls.has('getUpdates'));
  const { perSecond, messages } = await flood(fake);
  await pause(1500);
  const times = await waits(fake);
  return { perSecond, messages, p50: quantile(times, 0.5), p99: quantile(times, 0.99) };
}

async function stopped(child: ChildProcess): Promise<void> {
  const ended = new Promise((resolve) => child.once('close', resolve));
  child.kill('SIGTERM');
  await ended;
}

async function runEcho(): Promise<Run> {
  const fake = await startFakeBotApi();
  const cwd = fileURLToPath(new URL('..', import.meta.url));
  const env = { PATH: process.env.PATH, TOKEN: fake.token, ROOT: fake.apiRoot };
  const child = spawn(process.execPath, ['--input-type=module', '-e', ECHO], {
    cwd,
    env,
    stdio: ['ignore', 'inherit', 'inherit'],
  });
  const run = await measured(fake);
  await stopped(child);
  await fake.close();
  return run;
}

async function runOurs(): Promise<Run> {
  const fake = await startFakeBotApi();
  const folder = mkdtempSync(join(tmpdir(), 'padside-bench-'));
  const bundle = bundled();
  const { child } = startBot(bundle, {
    PADSIDE_TELEGRAM_TOKEN: fake.token,
    PADSIDE_TELEGRAM_API_ROOT: fake.apiRoot,
    PADSIDE_DB: join(folder, 'bot.sqlite'),
    PADSIDE_LOG: join(folder, 'log'),
  });
  const run = await measured(fake);
  await stopped(child);
  await fake.close();
  for (const made of [folder, bundle]) rmSync(made, { recursive: true });
  return run;
}

function line(name: string, { perSecond, messages, p50, p99 }: Run): string {
  const cells = [perSecond.toFixed(0), String(messages), p50.toFixed(1), p99.toFixed(1)];
  return name.padEnd(34) + cells.map((cell) => cell.padStart(12)).join('');
}

const echo = await runEcho();
const ours = await runOurs();
console.log(
  ''.padEnd(34) + ['updates/s', 'messages', 'p50 ms', 'p99 ms'].map((cell) => cell.padStart(12)).join(''),
);
console.log(line('echo, plain library, nothing kept', echo));
console.log(line('padside, durable (FULL)', ours));
console.log(
  `ratio: ${(echo.perSecond / ours.perSecond).toFixed(2)} times fewer updates a second, ` +
    `${(ours.messages / echo.messages).toFixed(2)} times as many messages, p50 ${(ours.p50 / echo.p50).toFixed(2)} times as long`,
);
