import { afterEach, describe, expect, it } from 'vitest';
import Database from 'better-sqlite3';
import type { SeenMessage } from '../fake-bot-api/chats.ts';
import type { Person } from '../fake-bot-api/person.ts';
import { personAt } from '../fake-bot-api/person.ts';
import type { Rig, RigOptions } from '../fake-bot-api/rig.ts';
import { startRig } from '../fake-bot-api/rig.ts';
import { storedOf } from '../fake-bot-api/stored.ts';

let rig: Rig;
afterEach(async () => {
  const { violations } = rig.fake;
  const { failedTurns } = rig.service.figures;
  await rig.close();
  expect(violations).toEqual([]);
  expect(failedTurns).toBe(0);
});

async function then(person: Person, act: () => unknown): Promise<SeenMessage> {
  const before = person.messages().length;
  act();
  return person.answered(before);
}

async function twoInConsults(options: RigOptions = {}): Promise<{ victim: Person; other: Person }> {
  rig = await startRig(options);
  const victim = personAt(rig.fake, 3001);
  const other = personAt(rig.fake, 3002);
  for (const person of [victim, other]) {
    await then(person, () => person.says('/start'));
    await then(person, () => person.presses('I own or use the pool'));
    await then(person, () => person.presses("Cleaner doesn't move"));
    await then(person, () => person.presses('Suction hose'));
  }
  return { victim, other };
}

const notices = (): string[] => [...rig.fake.notices.values()].filter((text) => text !== '');

describe('a hostile person', () => {
  it('should change nothing with callback data that no button had', async () => {
    const { victim, other } = await twoInConsults();
    const before = [victim, other].map(({ id }) =>
      storedOf(rig.file, `telegram:${id}`).filter((row) => /"state"|"pool"|"event"/.test(row)),
    );
    const forged = [
      '',
      '1',
      '1:2',
      '1:2:3:4',
      '-1:2:3',
      '999999999:1:0',
      'x'.repeat(64),
      '1:1:__proto__',
      '5:1e9:0',
      "1:1:0'; DROP TABLE person;--",
      '5:3:99',
      '\u0000:\u0000:\u0000',
    ];
    for (const data of forged) other.forges(data, other.question());
    await rig.settled();
    const after = [victim, other].map(({ id }) =>
      storedOf(rig.file, `telegram:${id}`).filter((row) => /"state"|"pool"|"event"/.test(row)),
    );
    const withoutVersion = (rows: string[][]): string[][] =>
      rows.map((list) => list.map((row) => row.replace(/"version":\d+,"asked"/, '"asked"')));
    expect(withoutVersion(after)).toEqual(withoutVersion(before));
    expect(notices()).toHaveLength(forged.length);
  });

  it("should not answer for another person with that person's button", async () => {
    const { victim, other } = await twoInConsults();
    const before = storedOf(rig.file, `telegram:${victim.id}`);
    const own = rig.store.load('telegram:3002', 'telegram:3002').pools;
    const { keyboard } = victim.question();
    for (const { callback_data } of keyboard.flat()) other.forges(callback_data, victim.question());
    await rig.settled();
    expect(storedOf(rig.file, `telegram:${victim.id}`)).toEqual(before);
    expect(rig.store.load('telegram:3002', 'telegram:3002').pools).toEqual(own);
    expect(notices().at(-1)).toMatch(/somebody else/);
  });

  it("should learn nothing of another person's pool or case by its id", async () => {
    const { victim, other } = await twoInConsults();
    const [pool] = rig.store.load('telegram:3001', 'telegram:3001').pools;
    const before = storedOf(rig.file, `telegram:${victim.id}`);
    const caseId = pool?.cases[0]?.id ?? 'none';
    for (const text of [
      `/pool ${pool?.id ?? ''}`,
      `/history ${caseId}`,
      `/start ${caseId.slice(0, 36)}`,
      caseId,
      `/why ${caseId}`,
    ])
      await then(other, () => other.says(text));
    expect(storedOf(rig.file, `telegram:${victim.id}`)).toEqual(before);
    const seen = other
      .messages()
      .map(({ text }) => text)
      .join('\n')
      .replaceAll(`“${pool?.id ?? ''}”`, '');
    expect(seen).not.toContain(pool?.id);
    expect(seen).not.toContain(caseId);
  });

  it('should get a short notice, and nothing else, for buttons of earlier questions pressed again', async () => {
    const { other } = await twoInConsults({ pace: { burst: 100, everyMs: 1000 } });
    const [, question] = other.messages();
    const pressed = question!.first.keyboard.flat();
    const before = rig.store.load('telegram:3002', 'telegram:3002');
    const messages = other.messages().length;
    for (let round = 0; round < 2; round += 1)
      for (const { callback_data } of pressed) other.forges(callback_data, question);
    await rig.settled();
    const after = rig.store.load('telegram:3002', 'telegram:3002');
    expect(after.state).toEqual(before.state);
    expect(after.pools).toEqual(before.pools);
    expect(other.messages()).toHaveLength(messages);
    expect(notices()).toHaveLength(2 * pressed.length);
  });

  it('should be slowed in a burst of 500 messages, told so once, and answered to each', async () => {
    const everyMs = 10;
    const { victim, other } = await twoInConsults({ pace: { burst: 20, everyMs } });
    const began = Date.now();
    for (let n = 0; n < 500; n += 1) other.says(`nonsense ${n}`);
    // The other person is served meanwhile.
    await then(victim, () => victim.says('/help'));
    const isAnswer = ({ text }: { text: string }): boolean => text.startsWith('I did not understand');
    const answeredByThen = other.messages().filter(isAnswer).length;
    await rig.settled();
    const tookMs = Date.now() - began;
    const database = new Database(rig.file, { readonly: true });
    const handled = database
      .prepare<[], { n: number }>(
        "SELECT COUNT(*) AS n FROM inbox WHERE body LIKE '%nonsense%' AND handled_at IS NOT NULL",
      )
      .get();
    database.close();
    const answers = other.messages().filter(isAnswer);
    const told = other.messages().filter(({ text }) => text.includes('faster than I can follow'));
    console.log(
      `500 messages in ${tookMs} ms; answers ${answers.length}; the other person was answered after ${answeredByThen} of them`,
    );
    expect(handled?.n).toBe(500);
    expect(answers).toHaveLength(500);
    expect(told).toHaveLength(1);
    expect(tookMs).toBeGreaterThan(400 * everyMs);
    expect(answeredByThen).toBeLessThan(500);
  });

  it('should be heard at once with an emergency amid a burst', async () => {
    const { other } = await twoInConsults({ pace: { burst: 5, everyMs: 60_000 } });
    for (let n = 0; n < 40; n += 1) other.says(`nonsense ${n}`);
    const answer = await then(other, () => other.says('my son is held by the drain and cannot get free'));
    expect(other.messages().some(({ text }) => text.startsWith('STOP'))).toBe(true);
    expect(answer).toBeDefined();
  });

  it('should not upset anything with a picture of more than 20 MB or a recording of half an hour', async () => {
    const { victim, other } = await twoInConsults();
    const before = rig.store.load('telegram:3002', 'telegram:3002').state;
    const big = await then(other, () =>
      other.sends({
        document: { file_id: 'huge', file_unique_id: 'huge', mime_type: 'image/jpeg', file_size: 20_971_520 },
      }),
    );
    expect(big.text).toMatch(/larger than 20 MB/);
    const long = await then(other, () =>
      other.sends({
        voice: { file_id: 'long', file_unique_id: 'long', duration: 1800, file_size: 7_000_000 },
      }),
    );
    expect(long.text).toMatch(/too long/);
    const strange = await then(other, () =>
      other.sends({ sticker: { file_id: 's', file_unique_id: 's', type: 'regular', width: 1, height: 1 } }),
    );
    expect(strange.keyboard.length).toBeGreaterThan(0);
    other.sends({ pinned_message: { message_id: 1 } });
    rig.fake.queue.add({ message: null });
    rig.fake.queue.add({ something_new: { a: 1 } });
    await rig.settled();
    expect(rig.store.load('telegram:3002', 'telegram:3002').state).toEqual({
      ...before,
      heardAt: before?.heardAt,
    });
    expect(victim.messages().some(({ text }) => /20 MB|too long/.test(text))).toBe(false);
  });
});
