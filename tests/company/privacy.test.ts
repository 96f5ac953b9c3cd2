/** What is told of what is kept, and that it really goes: by erasing, and by itself after long silence. */
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { monthsBefore } from '../../src/store/retention.ts';
import type { Crowd } from '../driver/crowd.ts';
import { startCrowd } from '../driver/crowd.ts';
import { allRows } from '../store/fixtures.ts';

const DAY_MS = 86_400_000;
let crowd: Crowd;
let company: string;
beforeEach(() => {
  crowd = startCrowd('en');
  company = crowd.company('Blue Heron Pools', 'ann');
  crowd.sendFile('ann', 'reference,name\nA-1,Garden of Ada\nA-2,Garden of Bo\n');
  crowd.choose('ann', 'yes');
  crowd.join('ada', company, 'owner', crowd.poolCalled('Garden of Ada'));
});
afterEach(() => crowd.close());

const held = (): string => JSON.stringify(allRows(crowd.database));
const privacyOf = (person: string): string[] =>
  crowd
    .say(person, '/privacy')
    .find(({ id }) => id === 'privacy')
    ?.text.split('\n') ?? [];

describe('what is told of privacy', () => {
  it('should be five lines, and name the company that sees something, and no other', () => {
    crowd.company('Red Fox Pools', 'rex');
    for (const person of ['ada', 'ann', 'stranger']) expect(privacyOf(person)).toHaveLength(5);
    expect(privacyOf('ada').join()).toContain('Blue Heron Pools');
    expect(privacyOf('ada').join()).not.toContain('Red Fox');
    expect(privacyOf('stranger').join()).not.toMatch(/Heron|Fox/);
  });

  it('should tell the months that the company set', () => {
    crowd.say('ann', '/company');
    crowd.choose('ann', 'retention-months');
    crowd.say('ann', '12');
    expect(privacyOf('ada').join()).toContain('12 months');
    expect(privacyOf('stranger').join()).toContain('24 months');
  });
});

describe('an owner who erases everything', () => {
  it('should be gone from every table, the pool and what the staff were told of it as well', () => {
    crowd.say('ann', '/staff', 'group');
    crowd.join('bo', company, 'owner', crowd.poolCalled('Garden of Bo'));
    expect(crowd.got.some(({ conversation }) => conversation === 'test:group')).toBe(true);
    expect(held()).toContain('The owner of Garden of Bo');
    crowd.say('bo', '/erase');
    crowd.choose('bo', 'yes');
    expect(held()).not.toContain('The owner of Garden of Bo');
    const { pool, membership, company_pool } = allRows(crowd.database);
    expect(JSON.stringify([pool, membership, company_pool])).not.toMatch(/Bo"|test:bo/);
    expect(JSON.stringify(pool)).toContain('Garden of Ada');
  });
});

describe('what nobody asks for any more', () => {
  it('should be kept for the months that are told, and then removed', () => {
    crowd.say('ada', 'my cleaner does not move');
    crowd.wait(729 * DAY_MS);
    expect(crowd.store.removeSilent(crowd.now())).toMatchObject({ people: 0, pools: 0 });
    crowd.wait(3 * DAY_MS);
    crowd.say('ann', '/help');
    expect(crowd.store.removeSilent(crowd.now())).toMatchObject({ people: 1, pools: 1, who: ['test:ada'] });
    const rows = allRows(crowd.database);
    expect(rows.pool).toEqual([]);
    expect(rows.consult).toEqual([]);
    expect(JSON.stringify(rows.person)).not.toContain('ada');
    expect(JSON.stringify(rows.person)).toContain('ann');
  });

  it('should go sooner where the company keeps less, and stay where the person wrote meanwhile', () => {
    crowd.say('ann', '/company');
    crowd.choose('ann', 'retention-months');
    crowd.say('ann', '6');
    crowd.wait(100 * DAY_MS);
    crowd.say('ada', '/help');
    crowd.wait(100 * DAY_MS);
    crowd.say('ann', '/help');
    expect(crowd.store.removeSilent(crowd.now()).people).toBe(0);
    crowd.wait(100 * DAY_MS);
    crowd.say('ann', '/help');
    expect(crowd.store.removeSilent(crowd.now()).people).toBe(1);
  });

  it.each([
    ['2032-03-31', 1, '2032-02-29'],
    ['2031-03-31', 1, '2031-02-28'],
    ['2032-01-15', 24, '2030-01-15'],
    ['2032-02-29', 12, '2031-02-28'],
  ])('should count from %s back %i months to %s', (from, months, to) => {
    expect(new Date(monthsBefore(Date.parse(from), months)).toISOString().slice(0, 10)).toBe(to);
  });
});

describe('an owner under a company', () => {
  it('should be told at the hand-off how the company is reached', () => {
    for (const [key, value] of [
      ['phone', '555 0100'],
      ['hours', 'Mon to Fri 8 to 17'],
    ] as const) {
      crowd.say('ann', '/company');
      crowd.choose('ann', key);
      crowd.say('ann', value);
      crowd.choose('ann', 'done');
    }
    crowd.say('ada', 'my cleaner does not move');
    for (let turn = 0; turn < 80; turn += 1) {
      if (crowd.got.some(({ message }) => message.id === 'company')) break;
      const open = crowd.got.filter(({ conversation }) => conversation === 'test:ada').at(-1)?.message;
      const ids = open?.options?.map(({ id }) => id) ?? [];
      const answer = ['understood', 'skip', 'cannot'].find((id) => ids.includes(id)) ?? ids[0] ?? 'skip';
      crowd.choose('ada', answer);
    }
    const told = crowd.got.find(({ message }) => message.id === 'company')?.message.text;
    expect(told).toMatch(/Blue Heron Pools: phone 555 0100, Mon to Fri 8 to 17/);
  });

  it('should be led through fewer or more checks by what the company holds a visit worth', () => {
    const { pools } = crowd.store.load('test:ada', 'test:ada');
    expect(pools[0]?.company?.handOffMinutes).toBe(120);
    crowd.say('ann', '/company');
    crowd.choose('ann', 'hand-off-minutes');
    crowd.say('ann', '15');
    expect(crowd.store.load('test:ada', 'test:ada').pools[0]?.company?.handOffMinutes).toBe(15);
    const stepsAt = (minutes: string): number => {
      crowd.choose('ann', 'hand-off-minutes');
      crowd.say('ann', minutes);
      const before = crowd.got.length;
      crowd.say('ada', '/new');
      crowd.choose('ada', 'not-moving');
      for (let turn = 0; turn < 80; turn += 1) {
        const open = crowd.got.filter(({ conversation }) => conversation === 'test:ada').at(-1)?.message;
        const ids = open?.options?.map(({ id }) => id) ?? [];
        if (ids.length === 0) break;
        crowd.choose('ada', ['understood', 'skip', 'cannot'].find((id) => ids.includes(id)) ?? ids[0]!);
      }
      return crowd.got.slice(before).filter(({ message }) => message.step !== undefined).length;
    };
    expect(stepsAt('15')).toBeLessThan(stepsAt('600'));
  });
});

describe('the people of a company', () => {
  it('should talk about one of its pools only while they belong to it', () => {
    crowd.join('tom', company, 'technician');
    crowd.say('tom', '/find Bo');
    expect(crowd.store.load('test:tom', 'test:tom').pools.map(({ name }) => name)).toEqual(['Garden of Bo']);
    const people = crowd.say('ann', '/people').at(-1);
    crowd.choose('ann', people!.options!.find(({ label }) => label.includes('tom'))!.id);
    crowd.choose('ann', 'yes');
    expect(crowd.store.load('test:tom', 'test:tom').pools).toEqual([]);
  });

  it('should get a ready message in the language of the owner, whatever their own is', () => {
    crowd.sendFile('ann', 'reference,name,language\nA-2,Garden of Bo,es\n');
    crowd.choose('ann', 'yes');
    const messages = crowd.say('ann', '/send A-2');
    expect(messages.map(({ id }) => id)).toEqual(['send', 'ready-message']);
    expect(messages[1]?.text).toMatch(/abra este enlace/);
  });
});
