/** Several people and their chats with one bot, inside the test's own process; every message that anybody gets is kept. */
import { createHash } from 'node:crypto';
import type Database from 'better-sqlite3';
import type { Bot } from '../../src/app/bot.ts';
import { createBot } from '../../src/app/bot.ts';
import { keptFile, mayImport } from '../../src/app/files.ts';
import { linksTo } from '../../src/app/links.ts';
import { runDue } from '../../src/app/schedule.ts';
import type { CompanyRole } from '../../src/dialogues/company/company.ts';
import type { Locale } from '../../src/dialogues/event.ts';
import type { Body, Message } from '../../src/dialogues/message.ts';
import type { Hints } from '../../src/store/entries.ts';
import { openDatabase } from '../../src/store/database.ts';
import type { Store } from '../../src/store/store.ts';
import { storeOn } from '../../src/store/store.ts';

export interface Got {
  conversation: string;
  message: Message;
}

export interface Crowd {
  store: Store;
  /** The database beneath the store. */
  database: Database.Database;
  bot: Bot;
  now: () => number;
  /** Time goes by, and what falls due is done within the hour. */
  wait(ms: number): void;
  /** Time goes by while the program is not running. */
  waitWithoutRunning(ms: number): void;
  /** Everything that anybody got so far. */
  got: Got[];
  /** Sends as a person, in their own chat or in a group, and returns what that conversation got. */
  send(person: string, body: Body, group?: string, hints?: Hints): Message[];
  say(person: string, text: string, group?: string): Message[];
  choose(person: string, option: string, group?: string): Message[];
  sendFile(person: string, content: string | Uint8Array): Message[];
  /** Makes a company with an administrator, who is asked nothing more. */
  company(name: string, administrator: string, locale?: Locale): string;
  /** Lets a person in by a link that an administrator makes. */
  /** The id of the pool with this name. */
  poolCalled(name: string): string;
  join(person: string, company: string, role: CompanyRole, pool?: string): void;
  close(): void;
}

const FIRST_MOMENT = Date.UTC(2030, 5, 1, 9);
const A_TURN_MS = 1000;
const AN_HOUR_MS = 3_600_000;

/** The payload of a link in a text. */
export function payloadIn(text: string): string {
  return /j-[\w-]{22}/.exec(text)?.[0] ?? '';
}

/** A crowd nobody has spoken in yet. */
export function startCrowd(locale?: Locale): Crowd {
  const database = openDatabase(':memory:');
  const store = storeOn(database);
  let moment = FIRST_MOMENT;
  let ids = 0;
  const now = (): number => moment;
  const freshId = (): string => `id-${(ids += 1)}`;
  const random = (count: number): Buffer =>
    createHash('sha256').update(freshId()).digest().subarray(0, count);
  const links = linksTo(() => 'invented_bot', random);
  const bot = createBot({ store, now, freshId, links, locale });
  const got: Got[] = [];
  const deliver = (): Got[] => {
    const fresh = store.outbox.pending('test').flatMap((conversation) =>
      store.undelivered(conversation).map(({ id, message }) => {
        store.outbox.mark({ id, partsSent: 1, done: true, keyboard: message.options !== undefined }, moment);
        return { conversation, message };
      }),
    );
    got.push(...fresh);
    return fresh;
  };
  const send: Crowd['send'] = (person, body, group, hints) => {
    moment += A_TURN_MS;
    const conversation = group === undefined ? `test:${person}` : `test:${group}:${person}`;
    const arrival = { channel: 'test', key: freshId(), conversation, person: `test:${person}`, body };
    store.receive([hints === undefined ? arrival : { ...arrival, hints }], moment);
    bot.work();
    return deliver().flatMap((one) => (one.conversation === conversation ? [one.message] : []));
  };
  const say: Crowd['say'] = (person, text, group) => send(person, { kind: 'text', text }, group);
  const choose: Crowd['choose'] = (person, option, group) => send(person, { kind: 'choose', option }, group);
  const enter = (person: string, company: string, role: CompanyRole, pool?: string): void => {
    const payload = links.fresh().payload;
    store.invitations.add({ id: freshId(), payload, company, role, pool, expiresAt: moment + 1e9 }, moment);
    say(person, `/start ${payload}`);
    choose(person, 'yes');
    if (role !== 'owner') say(person, `Called ${person}`);
  };
  return {
    store,
    database,
    bot,
    now,
    wait: (ms) => {
      const until = moment + ms;
      while (moment < until) {
        moment = Math.min(until, moment + AN_HOUR_MS);
        runDue({ store, now });
      }
      deliver();
    },
    waitWithoutRunning: (ms) => {
      moment += ms;
    },
    got,
    send,
    say,
    choose,
    sendFile: (person, content) => {
      const bytes = typeof content === 'string' ? Buffer.from(content) : content;
      const from = { id: freshId(), person: `test:${person}`, name: 'pools.csv' };
      const may = mayImport(`test:${person}`, from.person, store);
      return send(person, keptFile({ ...from, content: may ? bytes : undefined }, store, moment));
    },
    company: (name, administrator, spoken = 'en') => {
      const id = freshId();
      store.companies.create({ id, name, locale: spoken }, moment);
      enter(administrator, id, 'administrator');
      return id;
    },
    poolCalled: (name) =>
      database.prepare<[string], { id: string }>('SELECT id FROM pool WHERE name = ?').get(name)?.id ?? '',
    join: enter,
    close: () => store.close(),
  };
}
