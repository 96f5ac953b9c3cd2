import { afterEach, describe, expect, it } from 'vitest';
import type { Person } from '../fake-bot-api/person.ts';
import { personAt } from '../fake-bot-api/person.ts';
import type { Rig } from '../fake-bot-api/rig.ts';
import { startRig } from '../fake-bot-api/rig.ts';
import type { SeenMessage } from '../fake-bot-api/chats.ts';

/** The person of these tests answers faster than any finger: nobody is to be slowed here. */
const UNHURRIED = { burst: 1000, everyMs: 1000 };

let rig: Rig;
afterEach(async () => {
  const { violations } = rig.fake;
  await rig.close();
  expect(violations).toEqual([]);
});

/** Does something and waits for what the bot says to it. */
async function then(person: Person, act: () => unknown): Promise<SeenMessage> {
  const before = person.messages().length;
  act();
  return person.answered(before);
}

/** Answers with buttons only, the first choice of each question, until the case is closed. */
async function playedWithButtons(person: Person): Promise<string[]> {
  await then(person, () => person.says('/start'));
  await then(person, () => person.presses('I own or use the pool'));
  await then(person, () => person.presses("Cleaner doesn't move"));
  for (let turn = 0; turn < 60; turn += 1) {
    const texts = person.messages().map(({ text }) => text);
    if (texts.some((text) => /^RESULT/m.test(text))) return texts;
    const [button] = person.question().keyboard.flat();
    await then(person, () => person.presses(button!.text));
  }
  throw new Error('The consult did not end');
}

describe('a whole consult on the platform', () => {
  it('should be played with buttons alone, by polling', async () => {
    rig = await startRig({ pace: UNHURRIED });
    const person = personAt(rig.fake, 1001);
    const texts = await playedWithButtons(person);
    expect(texts[0]).toMatch(/Who is at the pool/);
    expect(texts.some((text) => text.includes('CAUTION'))).toBe(true);
    const open = person.messages().filter(({ keyboard }) => keyboard.length > 0);
    expect(open.length).toBeLessThanOrEqual(1);
    const [pool] = rig.store.load('telegram:1001', 'telegram:1001').pools;
    expect(pool?.cases[0]?.outcome).toBeDefined();
    // Every press is answered, so that no button keeps its waiting sign.
    expect(rig.fake.notices.size).toBeGreaterThan(3);
    expect(rig.fake.commands.map(({ scope, language }) => `${scope}/${language ?? ''}`)).toEqual(
      expect.arrayContaining([
        'all_private_chats/',
        'all_private_chats/es',
        'all_group_chats/',
        'all_group_chats/es',
      ]),
    );
  });

  it('should be played with buttons alone, by webhook', async () => {
    rig = await startRig({ webhookSecret: 'a-secret-of-nobody', pace: UNHURRIED });
    const person = personAt(rig.fake, 1002);
    const texts = await playedWithButtons(person);
    expect(texts.some((text) => /^RESULT/m.test(text))).toBe(true);
    expect(rig.fake.calls.get('getUpdates')).toBeUndefined();
    expect(rig.fake.webhook?.secret).toBe('a-secret-of-nobody');
  });

  it('should be played by typing', async () => {
    rig = await startRig({ pace: UNHURRIED });
    const person = personAt(rig.fake, 1003);
    await then(person, () => person.says('hello'));
    await then(person, () => person.says('owner'));
    await then(person, () => person.says('the cleaner does not move'));
    for (let turn = 0; turn < 60; turn += 1) {
      if (person.messages().some(({ text }) => /^RESULT/m.test(text))) break;
      const [button] = person.question().keyboard.flat();
      await then(person, () => person.says(button!.text));
    }
    expect(person.messages().some(({ text }) => /^RESULT/m.test(text))).toBe(true);
    const [pool] = rig.store.load('telegram:1003', 'telegram:1003').pools;
    expect(pool?.cases[0]?.outcome).toBeDefined();
  });

  it('should be held in Spanish with a person whose phone is set to it', async () => {
    rig = await startRig({ pace: UNHURRIED });
    const person = personAt(rig.fake, 1004, { language: 'es-MX' });
    const first = await then(person, () => person.says('/start enlace-7'));
    expect(first.text).toBe('¿Quién está en la piscina?');
    await then(person, () => person.presses('Tengo o uso la piscina'));
    await then(person, () => person.says('el limpiafondos no se mueve'));
    for (let turn = 0; turn < 60; turn += 1) {
      if (person.messages().some(({ text }) => /^RESULTADO/m.test(text))) break;
      const [button] = person.question().keyboard.flat();
      await then(person, () => person.presses(button!.text));
    }
    const texts = person.messages().map(({ text }) => text);
    expect(texts.some((text) => /^RESULTADO/m.test(text))).toBe(true);
    expect(texts.some((text) => text.includes('ATENCIÓN'))).toBe(true);
    expect(texts.join(' ')).not.toMatch(/\b(the|your|pump|is)\b/);
  });
});
