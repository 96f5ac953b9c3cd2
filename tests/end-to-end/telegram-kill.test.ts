import { mkdtempSync, readFileSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as pause } from 'node:timers/promises';
import Database from 'better-sqlite3';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { seeded } from '../fake-bot-api/faults.ts';
import { compared, said } from '../fake-bot-api/ledger.ts';
import type { Person } from '../fake-bot-api/person.ts';
import { personAt } from '../fake-bot-api/person.ts';
import type { BotProcess } from '../fake-bot-api/process.ts';
import { bundled, startBot } from '../fake-bot-api/process.ts';
import type { FakeBotApi } from '../fake-bot-api/server.ts';
import { startFakeBotApi } from '../fake-bot-api/server.ts';

const PEOPLE = 200;
const UPDATES_EACH = 10;
const KILLS = 50;
const TERMS = 20;
/** The latest moment of a kill after the first poll of a start, milliseconds. */
const LATEST_MS = 150;

let bundle: string;
let folder: string;
let fake: FakeBotApi;
beforeAll(async () => {
  bundle = bundled();
  folder = mkdtempSync(join(tmpdir(), 'padside-kill-'));
  fake = await startFakeBotApi();
});
afterAll(async () => {
  await fake.close();
  rmSync(folder, { recursive: true });
  rmSync(bundle, { recursive: true });
});

/** What the nth person types: who they are, then eight readings that differ from one another. */
function typed(person: Person, n: number): void {
  person.says('/start');
  person.says('owner');
  for (let k = 0; k < UPDATES_EACH - 2; k += 1)
    person.says(`filter ${(10 + (n % 50) * 0.1 + k).toFixed(1)} psi`);
}

/** Lets a person press a button of each new question as soon as they see it, until they have sent enough. */
function pressesOn(person: Person, n: number): () => void {
  let sent = 1;
  let answered = 0;
  person.says('/start');
  return () => {
    const last = person.last();
    if (last === undefined || last.keyboard.length === 0 || sent >= UPDATES_EACH) return;
    // A question that came once more is the same question: nobody answers it twice.
    const id = Number(last.keyboard[0]?.[0]?.callback_data.split(':')[1]);
    if (id <= answered) return;
    answered = id;
    sent += 1;
    const buttons = last.keyboard.flat().filter(({ callback_data }) => !callback_data.endsWith('more'));
    person.forges(buttons[(n + sent) % buttons.length]!.callback_data, last);
  };
}

interface Column {
  [column: string]: number;
}

function counted(file: string, sql: string): number {
  const database = new Database(file, { readonly: true });
  const row = database.prepare<[], Column>(sql).get() ?? {};
  database.close();
  return Object.values(row)[0] ?? 0;
}

let letThrough: () => void = () => undefined;

/** Makes the next start wait at its first call until it is let through: it gets ready while the one before still works. */
function holdNextStart(): void {
  const until = new Promise<void>((resolve) => (letThrough = resolve));
  fake.faults = (method) => (method === 'getMe' ? { kind: 'held', until } : undefined);
}

/** Waits for the next poll; rejects with what the bot said where it ends instead. */
async function untilPolled({ child, ended }: BotProcess): Promise<void> {
  const before = fake.calls.get('getUpdates') ?? 0;
  while ((fake.calls.get('getUpdates') ?? 0) === before) {
    if (child.exitCode !== null)
      throw new Error(`The bot did not start: ${(await ended).errors.slice(-400)}`);
    await pause(2);
  }
}

describe('a bot that is killed again and again', () => {
  it('should lose no update, record no answer twice and keep each conversation in order', async () => {
    const random = seeded(20_260_301);
    const file = join(folder, 'bot.sqlite');
    const log = join(folder, 'log');
    const settings = {
      PADSIDE_TELEGRAM_TOKEN: fake.token,
      PADSIDE_TELEGRAM_API_ROOT: fake.apiRoot,
      PADSIDE_DB: file,
      PADSIDE_LOG: log,
    };
    const people = Array.from({ length: PEOPLE }, (_, n) => personAt(fake, 10_000 + n));
    const reactions = new Map<number, () => void>();
    for (const [n, person] of people.entries())
      if (n % 2 === 0) typed(person, n);
      else reactions.set(person.chat, pressesOn(person, n));
    fake.onSend = (chat) => reactions.get(chat)?.();

    const ends: { signal: NodeJS.Signals; at: number }[] = [];
    const signals: NodeJS.Signals[] = [
      ...Array<NodeJS.Signals>(KILLS).fill('SIGKILL'),
      ...Array<NodeJS.Signals>(TERMS).fill('SIGTERM'),
    ];
    signals.sort(() => random() - 0.5);
    const readyBot = (): BotProcess => {
      holdNextStart();
      return startBot(bundle, settings);
    };
    let next = readyBot();
    let slowestStopMs = 0;
    let inMidWork = 0;
    for (const [index, signal] of signals.entries()) {
      // A share of the updates for each start, so that every one of them has work to be killed in.
      fake.queue.limitTo = Math.ceil((PEOPLE * UPDATES_EACH * (index + 1)) / (signals.length + 1));
      const bot = next;
      const polled = untilPolled(bot);
      letThrough();
      await polled;
      next = readyBot();
      await pause(random() * LATEST_MS);
      const sentBefore = fake.chats.sent.length;
      const began = Date.now();
      bot.child.kill(signal);
      const { code, errors } = await bot.ended;
      ends.push({ signal, at: Date.now() });
      if (
        counted(file, 'SELECT COUNT(*) FROM inbox WHERE handled_at IS NULL') +
          counted(file, 'SELECT COUNT(*) FROM outbox WHERE delivered_at IS NULL') >
          0 ||
        fake.chats.sent.length > sentBefore
      )
        inMidWork += 1;
      expect(errors).toBe('');
      if (signal === 'SIGTERM') {
        slowestStopMs = Math.max(slowestStopMs, Date.now() - began);
        expect(code).toBe(0);
      }
    }
    fake.queue.limitTo = undefined;
    const bot = next;
    letThrough();
    const total = PEOPLE * UPDATES_EACH;
    const done = (): boolean =>
      counted(file, 'SELECT COUNT(*) FROM inbox WHERE handled_at IS NOT NULL') === total &&
      counted(file, 'SELECT COUNT(*) FROM outbox WHERE delivered_at IS NULL') === 0;
    const until = Date.now() + 180_000;
    while (!done() && Date.now() < until) await pause(100);
    bot.child.kill('SIGTERM');
    await bot.ended;

    const handled = counted(file, 'SELECT COUNT(*) FROM inbox WHERE handled_at IS NOT NULL');
    const turnsNotTen = counted(file, `SELECT COUNT(*) FROM conversation WHERE version <> ${UPDATES_EACH}`);
    const readingsTwice = counted(
      file,
      'SELECT COUNT(*) FROM (SELECT 1 FROM reading GROUP BY pool, said HAVING COUNT(*) > 1)',
    );
    const differences = people.map((person) =>
      compared(person.messages(), said(file, `telegram:${person.chat}`)),
    );
    const repeats = differences.flatMap((difference) => difference.repeats);
    /** How many ends came before a moment: which start a message was sent in. */
    const startOf = (at: number): number => ends.filter((end) => end.at <= at).length;
    const perKill = new Map<string, number>();
    for (const { chat, at } of repeats) {
      const key = `${chat} after ${startOf(at)}`;
      perKill.set(key, (perKill.get(key) ?? 0) + 1);
    }
    const afterTerm = repeats.filter(({ at }) => ends[startOf(at) - 1]?.signal === 'SIGTERM').length;
    const sum = (pick: 'strays' | 'missing'): number => differences.reduce((all, one) => all + one[pick], 0);
    console.log(
      `updates ${total}, handled ${handled}, lost ${total - handled}, conversations not at turn ${UPDATES_EACH}: ${turnsNotTen}, ` +
        `readings recorded twice ${readingsTwice}; messages ${fake.chats.sent.length}, out of order ${sum('strays')}, ` +
        `unsaid ${sum('missing')}, repeated ${repeats.length} (after SIGTERM ${afterTerm}), most a conversation a kill ` +
        `${Math.max(0, ...perKill.values())}; ${KILLS} SIGKILL and ${TERMS} SIGTERM, ${inMidWork} of them in mid-work; ` +
        `slowest graceful stop ${slowestStopMs} ms`,
    );
    expect(fake.queue.waiting()).toBe(0);
    expect(handled).toBe(total);
    expect(turnsNotTen).toBe(0);
    expect(counted(file, 'SELECT COUNT(*) FROM reading')).toBe((PEOPLE / 2) * (UPDATES_EACH - 2));
    expect(readingsTwice).toBe(0);
    expect(sum('strays')).toBe(0);
    expect(sum('missing')).toBe(0);
    expect(afterTerm).toBe(0);
    expect(Math.max(0, ...perKill.values())).toBeLessThanOrEqual(1);
    expect(inMidWork).toBeGreaterThan((KILLS + TERMS) / 2);
    expect(slowestStopMs).toBeLessThan(10_000);
    expect(fake.violations).toEqual([]);
    const lines = readFileSync(log, 'utf8');
    expect(lines).not.toContain(fake.token);
    expect(lines).not.toMatch(/Person \d|psi|owner/);
  }, 900_000);
});
