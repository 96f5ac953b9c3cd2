import { setTimeout as pause } from 'node:timers/promises';
import Database from 'better-sqlite3';
import { afterEach, describe, expect, it } from 'vitest';
import type { SeenMessage } from '../fake-bot-api/chats.ts';
import { personAt } from '../fake-bot-api/person.ts';
import type { Person } from '../fake-bot-api/person.ts';
import type { Rig } from '../fake-bot-api/rig.ts';
import { startRig } from '../fake-bot-api/rig.ts';

let rig: Rig;
afterEach(async () => {
  const { violations } = rig.fake;
  await rig.close();
  expect(violations).toEqual([]);
});

async function then(person: Person, act: () => unknown): Promise<SeenMessage> {
  const before = person.messages().length;
  act();
  return person.answered(before);
}

function rows(sql: string): Record<string, unknown>[] {
  const database = new Database(rig.file, { readonly: true });
  const found = database.prepare<[], Record<string, unknown>>(sql).all();
  database.close();
  return found;
}

async function inConsult(person: Person): Promise<void> {
  await then(person, () => person.says('/start'));
  await then(person, () => person.presses('I own or use the pool'));
  await then(person, () => person.presses("Cleaner doesn't move"));
  const isAtCheck = (): boolean => {
    const { state } = rig.store.load(`telegram:${person.id}`, `telegram:${person.id}`);
    return state?.flow.at === 'consult' && state.flow.prompt.kind === 'check';
  };
  for (let turn = 0; turn < 12 && !isAtCheck(); turn += 1)
    await then(person, () => person.presses(person.question().keyboard.flat()[0]!.text));
  expect(isAtCheck()).toBe(true);
}

describe('the buttons', () => {
  it('should show the rarer choices when asked, and those should work', async () => {
    rig = await startRig();
    const person = personAt(rig.fake, 4001);
    await then(person, () => person.says('/start'));
    await then(person, () => person.presses('I own or use the pool'));
    const folded = person.question();
    const count = folded.keyboard.flat().length;
    const messages = person.messages().length;
    person.presses('More …');
    await rig.settled();
    expect(person.messages()).toHaveLength(messages);
    expect(folded.keyboard.flat().length).toBeGreaterThan(count);
    const rare = folded.keyboard.flat().at(-1)!;
    await then(person, () => person.presses(rare.text));
    expect(folded.keyboard).toEqual([]);
    expect(folded.text).toContain(`→ ${rare.text}`);
  });

  it('should come off a question that was answered by typing', async () => {
    rig = await startRig();
    const person = personAt(rig.fake, 4002);
    const first = await then(person, () => person.says('/start'));
    await then(person, () => person.says('technician'));
    await rig.settled();
    expect(first.keyboard).toEqual([]);
  });
});

describe('photos', () => {
  it('should be kept with the case and the step they answer, and leave the question open', async () => {
    rig = await startRig();
    const person = personAt(rig.fake, 4003);
    await inConsult(person);
    const question = person.question();
    const photo = [{ file_id: 'photo-1', file_unique_id: 'u', width: 90, height: 90, file_size: 1200 }];
    const answer = await then(person, () => person.sends({ photo }));
    expect(answer.text).toBe('Photo kept with this step.');
    const { pools, state } = rig.store.load('telegram:4003', 'telegram:4003');
    const [kept] = rows('SELECT file, consult, step, conversation, person FROM photo');
    const step =
      state?.flow.at === 'consult' && state.flow.prompt.kind === 'check'
        ? state.flow.prompt.check
        : undefined;
    expect(kept).toEqual({
      file: 'photo-1',
      consult: pools[0]?.cases[0]?.id,
      step,
      conversation: 'telegram:4003',
      person: 'telegram:4003',
    });
    expect(question.keyboard.length).toBeGreaterThan(0);
    const next = await then(person, () => person.presses(question.keyboard.flat()[0]!.text));
    expect(next.text).not.toMatch(/earlier question/);
    await then(person, () => person.says('/erase'));
    await then(person, () => person.presses('Yes'));
    expect(rows('SELECT * FROM photo')).toEqual([]);
    expect(rows("SELECT * FROM inbox WHERE person = 'telegram:4003' AND body LIKE '%photo-1%'")).toEqual([]);
  });
});

describe('recordings', () => {
  const voice = { voice: { file_id: 'voice-1', file_unique_id: 'v', duration: 3, file_size: 9000 } };

  it('should be answered with a kind request to type while nobody listens', async () => {
    rig = await startRig();
    const person = personAt(rig.fake, 4004);
    await then(person, () => person.says('/start'));
    await then(person, () => person.sends(voice));
    expect(person.messages().some(({ text }) => text.includes('Please type it'))).toBe(true);
  });

  it('should be taken for what the listener heard, in their place among other messages', async () => {
    const heard: string[] = [];
    rig = await startRig({
      listener: {
        hear: async ({ file }) => {
          heard.push(file);
          await pause(150);
          return { kind: 'text', text: 'technician' };
        },
      },
    });
    const person = personAt(rig.fake, 4005);
    await then(person, () => person.says('/start'));
    person.sends(voice);
    person.says('the cleaner does not move');
    await rig.settled();
    expect(heard).toEqual(['voice-1']);
    const { state, pools } = rig.store.load('telegram:4005', 'telegram:4005');
    expect(state?.role).toBe('technician');
    expect(state?.flow.at).toBe('profile');
    expect(pools).toHaveLength(1);
  });

  it('should be asked for in writing where the listener fails', async () => {
    rig = await startRig({ listener: { hear: () => Promise.reject(new Error('no model')) } });
    const person = personAt(rig.fake, 4006);
    await then(person, () => person.says('/start'));
    await then(person, () => person.sends(voice));
    expect(person.messages().some(({ text }) => text.includes('Please type it'))).toBe(true);
  });
});

describe('a group', () => {
  it('should be served where it speaks to the bot, each person by themselves, visibly to whom', async () => {
    rig = await startRig();
    const chat = -1001;
    const one = personAt(rig.fake, 4007, { chat });
    const two = personAt(rig.fake, 4008, { chat, language: 'es' });
    one.says('shall we have lunch?');
    await rig.settled();
    expect(one.messages()).toEqual([]);
    const entities = [{ type: 'bot_command', offset: 0, length: 23 }];
    const asked = await then(one, () => one.says('/start@padside_test_bot', { entities }));
    expect(asked.replyTo).toBeDefined();
    // The other person's press on it is answered with a notice and starts nothing.
    two.forges(asked.keyboard.flat()[0]!.callback_data, asked);
    await rig.settled();
    expect([...rig.fake.notices.values()].at(-1)).toMatch(/otra persona/);
    expect(rig.store.load('telegram:-1001:4007', 'telegram:4007').state?.flow.at).toBe('role');
    await then(two, () => two.says('/start@padside_test_bot', { entities }));
    expect(rig.store.load('telegram:-1001:4008', 'telegram:4008').state?.locale).toBe('es');
  });
});

describe('a person who blocks the bot', () => {
  it('should be sent nothing more until they write again', async () => {
    rig = await startRig();
    const person = personAt(rig.fake, 4009);
    await then(person, () => person.says('/start'));
    rig.fake.faults = (method, to) =>
      method === 'sendMessage' && to === 4009 ? { kind: 'status', code: 403 } : undefined;
    const before = rig.fake.calls.get('sendMessage') ?? 0;
    person.says('owner');
    person.says('what now');
    await rig.settled();
    const [row] = rows("SELECT unreachable_at FROM person WHERE id = 'telegram:4009'");
    expect(row?.unreachable_at).toBeGreaterThan(0);
    expect((rig.fake.calls.get('sendMessage') ?? 0) - before).toBeLessThanOrEqual(2);
    expect(rig.store.outbox.open()).toBe(0);
    rig.fake.faults = undefined;
    await then(person, () => person.says('/help'));
    expect(
      rows("SELECT unreachable_at FROM person WHERE id = 'telegram:4009'")[0]?.unreachable_at,
    ).toBeNull();
  });
});

describe('while an answer takes long', () => {
  it('should show the typing sign after half a second, and not before', async () => {
    rig = await startRig();
    const person = personAt(rig.fake, 4010);
    await then(person, () => person.says('/start'));
    expect(rig.fake.typing).toEqual([]);
    rig.fake.faults = (method) => (method === 'sendMessage' ? { kind: 'slow', ms: 1200 } : undefined);
    await then(person, () => person.says('owner'));
    expect(rig.fake.typing).toEqual([4010]);
  });

  it('should keep nobody else waiting', async () => {
    rig = await startRig();
    const slow = personAt(rig.fake, 4011);
    const quick = personAt(rig.fake, 4012);
    rig.fake.faults = (method, to) =>
      method === 'sendMessage' && to === 4011 ? { kind: 'slow', ms: 3000 } : undefined;
    slow.says('/start');
    await then(quick, () => quick.says('/start'));
    expect(slow.messages()).toEqual([]);
  });
});

describe('the log and the figures', () => {
  it('should hold a line a turn without token, name or text', async () => {
    rig = await startRig();
    const person = personAt(rig.fake, 4013);
    await then(person, () => person.says('/start'));
    await then(person, () => person.says('my secret garden pool'));
    const lines = rig.log.join('');
    const turns = rig.log
      .map((line) => JSON.parse(line) as Record<string, unknown>)
      .filter(({ msg }) => msg === 'turn');
    expect(turns).toHaveLength(2);
    expect(Object.keys(turns[0]!)).toEqual(expect.arrayContaining(['update', 'conversation', 'state', 'ms']));
    expect(turns[0]!.conversation).toMatch(/^[0-9a-f]{12}$/);
    expect(lines).not.toContain(rig.fake.token);
    expect(lines).not.toMatch(/secret garden|Person 4013|4013/);
    expect(rig.service.figures.turns).toBe(2);
  });
});
