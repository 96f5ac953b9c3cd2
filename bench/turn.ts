/** Prints what a whole turn takes with the store on disk, and what of it is the engine. Run it on a quiet machine. */
import { randomUUID } from 'node:crypto';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { createBot } from '../src/app/bot.ts';
import { localTalk } from '../src/app/local.ts';
import type { Message } from '../src/dialogues/message.ts';
import type { CaseEvent } from '../src/engine/case.ts';
import { planOf } from '../src/engine/plan.ts';
import type { Equipment } from '../src/knowledge/schema.ts';
import { checkById } from '../src/knowledge/trade.ts';
import type { CheckId } from '../src/knowledge/ids.ts';
import { openStore } from '../src/store/store.ts';
import { answer as answered, notYet, plainCase } from '../tests/engine/plain-case.ts';

const CASES = 150;
const POOL: Equipment = {
  cleaner: 'suction',
  connection: 'skimmer',
  canister: 'yes',
  pump: 'variable-speed',
  filter: 'sand',
  multiport: 'yes',
};

function row(label: string, times: number[]): string {
  const sorted = [...times].sort((a, b) => a - b);
  const at = (q: number): string => (sorted[Math.floor(q * (sorted.length - 1))] ?? NaN).toFixed(3);
  const perSecond = (1000 * times.length) / times.reduce((sum, time) => sum + time, 0);
  return `${label.padEnd(34)} ${perSecond.toFixed(0).padStart(8)} ${at(0.5).padStart(9)} ${at(0.99).padStart(9)} ${String(times.length).padStart(7)}`;
}

function answer(message: Message | undefined): string {
  if (message?.kind === 'caution') return 'understood';
  if (message?.kind === 'repair') return 'not-yet';
  if (message?.kind === 'check') return checkById(message.id as CheckId).outcomes[0] ?? 'unsure';
  if (message?.kind === 'question') return POOL[message.id as keyof Equipment] ?? 'no';
  return 'unsure';
}

function wholeTurns(file: string): number[] {
  const store = openStore(file);
  const now = (): number => Date.now();
  const bot = createBot({ store, now, freshId: randomUUID, locale: 'en', role: 'owner' });
  const talk = localTalk(bot, store, now, randomUUID, 'en');
  const times: number[] = [];
  const say = (option: string): Message[] => {
    const start = performance.now();
    const messages = talk.send({ kind: 'choose', option });
    times.push(performance.now() - start);
    return messages;
  };
  for (let count = 0; count < CASES; count += 1) {
    talk.send({ kind: 'text', text: '/new' });
    let messages = say('not-moving');
    for (let turn = 0; turn < 60 && !messages.some(({ kind }) => kind === 'result'); turn += 1)
      messages = say(answer(messages.at(-1)));
  }
  store.close();
  return times;
}

function engineAlone(): number[] {
  const { setting } = plainCase({ complaint: 'not-moving', equipment: POOL });
  const times: number[] = [];
  for (let count = 0; count < CASES; count += 1) {
    const events: CaseEvent[] = [];
    for (let step = 0; step < 15; step += 1) {
      const start = performance.now();
      const plan = planOf({ setting, events });
      times.push(performance.now() - start);
      if (plan.kind === 'hand-off') break;
      events.push(
        plan.kind === 'repair'
          ? notYet(plan.fault)
          : answered(plan.check, checkById(plan.check).outcomes[0] ?? 'unsure'),
      );
    }
  }
  return times;
}

const folder = mkdtempSync(join(tmpdir(), 'padside-bench-'));
console.log(
  `${''.padEnd(34)} ${'a second'.padStart(8)} ${'p50 ms'.padStart(9)} ${'p99 ms'.padStart(9)} ${'number'.padStart(7)}`,
);
console.log(row('whole turn, store on disk (FULL)', wholeTurns(join(folder, 'bench.sqlite'))));
console.log(row('whole turn, store in memory', wholeTurns(':memory:')));
console.log(row('choice of the next step alone', engineAlone()));
rmSync(folder, { recursive: true });
