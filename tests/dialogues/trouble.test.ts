/** What is wrong, told in one breath with what was read and seen: nobody is asked for that again. */
import { describe, expect, it } from 'vitest';
import type { Understood } from '../../src/dialogues/event.ts';
import type { PoolRecord } from '../../src/dialogues/record.ts';
import { rendered } from '../../src/language/render.ts';
import { troubleIn } from '../../src/language/findings.ts';
import { startTalk } from '../driver/talk.ts';
import { answeredIn, PLAIN, readIn, technicianAtPlainPool } from './plain-pool.ts';
import { atThePool, next } from './walker.ts';

const BOTH = 'the cleaner is not moving, filter thirty two psi and vacuum three';

describe('what is wrong and what was read, in one message', () => {
  it.each([
    ['en', BOTH, 'not-moving', 2],
    ['en', 'filter 32 psi, vacuum 3, cleaner dead in the water', 'not-moving', 2],
    ['es', 'el limpiafondos no se mueve, filtro 32 psi', 'not-moving', 1],
  ] as const)('should both be taken (%s): %s', (locale, text, complaint, count) => {
    const meant = troubleIn(text, locale);
    expect(meant?.complaint).toBe(complaint);
    expect(meant?.readings).toHaveLength(count);
  });

  it.each(['filter 32 psi, vacuum 3', 'the cleaner is not moving', 'filter 32 psi, what lovely weather'])(
    'should not be found where it is not both: %s',
    (text) => {
      const meant = troubleIn(text, 'en');
      expect(meant).toBeUndefined();
    },
  );

  it('should open the case with its readings answered', () => {
    const talk = technicianAtPlainPool();
    const said = talk.say(BOTH);
    expect(said.map(({ id }) => id)).toContain('verdict');
    expect(talk.state()).toBe('consult');
    expect(readIn(talk)).toEqual(['32 psi', '3 inHg']);
    talk.close();
  });

  it('should be read back as a whole where it was heard, and count with a yes', () => {
    const meant: Understood = {
      kind: 'trouble',
      complaint: 'not-moving',
      findings: [],
      readings: [{ quantity: 'filter-pressure', value: 32, unit: 'psi' }],
    };
    const asked = next(atThePool('technician', PLAIN), {
      kind: 'heard',
      meant,
      others: [],
      isSure: true,
    });
    expect(rendered(asked.says.at(-1)!, 'en').text).toContain("Cleaner doesn't move");
    expect(asked.pools[0]?.readings).toEqual([]);
    const taken = next(asked, { kind: 'answer', option: 'yes' });
    const [pool] = taken.pools as [PoolRecord];
    expect(pool.readings).toHaveLength(1);
    expect(pool.cases[0]?.events).toMatchObject([{ kind: 'reading', check: 'filter-pressure' }]);
  });
});

describe('what is wrong and what was seen, in one message', () => {
  it.each([
    [
      'en',
      'my cleaner stopped moving and the skimmer basket is full',
      'not-moving',
      ['skimmer-look basket-full'],
    ],
    [
      'en',
      'cleaner wont move. filter was cleaned months ago, returns are weak',
      'not-moving',
      ['filter-last-cleaned overdue', 'return-flow weak'],
    ],
    ['es', 'el limpiafondos no se mueve y los retornos estan flojos', 'not-moving', ['return-flow weak']],
  ] as const)('should both be taken (%s): %s', (locale, text, complaint, seen) => {
    const trouble = troubleIn(text, locale);
    expect(trouble?.complaint).toBe(complaint);
    expect(trouble?.findings.map(({ check, outcome }) => `${check} ${outcome}`)).toEqual(seen);
  });

  it('should open the case with what was seen answered and said back, and ask it no more', () => {
    const talk = technicianAtPlainPool();
    const said = talk.say('the cleaner is not moving and the skimmer basket is full');
    expect(said.map(({ id }) => id)).toContain('noted');
    expect(answeredIn(talk)).toEqual(['skimmer-look basket-full']);
    talk.close();
  });

  it('should be kept through the questions before the case, those of a stranger too', () => {
    const talk = startTalk();
    talk.say('/start');
    talk.say('my cleaner is not moving and the skimmer basket is full');
    talk.choose('en');
    talk.choose('owner');
    for (const option of ['suction', 'skimmer', 'no', 'single-speed', 'cartridge'])
      if (talk.state() === 'profile') talk.choose(option);
    expect(talk.state()).toBe('consult');
    expect(answeredIn(talk)).toEqual(['skimmer-look basket-full']);
    talk.close();
  });

  it('should not count what is wrong as something seen besides', () => {
    const talk = technicianAtPlainPool();
    talk.say('bubbles at the returns');
    expect(talk.state()).toBe('consult');
    expect(answeredIn(talk)).toEqual([]);
    talk.close();
  });

  it('should be kept where it is told at a question about the equipment, and be no answer to it', () => {
    const talk = startTalk({ role: 'owner', pool: { name: 'Invented pool', equipment: {}, clean: {} } });
    talk.say('/start');
    talk.say('the cleaner is not moving');
    const [asked] = talk.choose('suction');
    const again = talk.say('skimmer basket full');
    expect(again.at(-1)?.id).toBe(asked?.id);
    for (const option of ['skimmer', 'no', 'single-speed', 'cartridge'])
      if (talk.state() === 'profile') talk.choose(option);
    expect(answeredIn(talk)).toEqual(['skimmer-look basket-full']);
    talk.close();
  });
});

describe('a pump that hums', () => {
  it("should be told off at once, also before the equipment is known, and end an owner's case", () => {
    const talk = startTalk({ role: 'owner', pool: { name: 'Invented pool', equipment: {}, clean: {} } });
    talk.say('/start');
    let says = talk.say('my pump hums and wont turn');
    expect(says[0]?.id).toBe('hums');
    for (const option of ['none', 'single-speed', 'cartridge'])
      if (talk.state() === 'profile') says = talk.choose(option);
    expect(says.map(({ id }) => id)).toContain('visit');
    expect(talk.pools()[0]?.cases.at(-1)?.outcome).toBe('visit');
    talk.close();
  });
});
