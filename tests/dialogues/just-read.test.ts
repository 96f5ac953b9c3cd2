/** Readings sent before a case, or in one breath with what is wrong: nobody is asked for them again. */
import { describe, expect, it } from 'vitest';
import type { Understood } from '../../src/dialogues/event.ts';
import type { PoolRecord } from '../../src/dialogues/record.ts';
import { rendered } from '../../src/language/render.ts';
import { troubleWithReadings } from '../../src/language/findings.ts';
import type { Talk } from '../driver/talk.ts';
import { startTalk } from '../driver/talk.ts';
import { atThePool, next } from './walker.ts';

const EQUIPMENT = {
  cleaner: 'suction',
  connection: 'skimmer',
  canister: 'no',
  pump: 'single-speed',
  filter: 'cartridge',
} as const;
const POOL = { name: 'Invented pool', equipment: EQUIPMENT, clean: {} };
const BOTH = 'the cleaner is not moving, filter thirty two psi and vacuum three';

/** The readings that count as answers of the latest case. */
function readIn(talk: Talk): string[] {
  const record = talk.pools()[0]?.cases.at(-1);
  return (record?.events ?? []).flatMap((event) => (event.kind === 'reading' ? [event.said] : []));
}

function talkOfTechnician(): Talk {
  const talk = startTalk({ role: 'technician', pool: POOL });
  talk.say('/start');
  return talk;
}

describe('what is wrong and its readings in one message', () => {
  it.each([
    ['en', BOTH, 'not-moving', 2],
    ['en', 'filter 32 psi, vacuum 3, cleaner dead in the water', 'not-moving', 2],
    ['es', 'el limpiafondos no se mueve, filtro 32 psi', 'not-moving', 1],
  ] as const)('should both be taken (%s): %s', (locale, text, complaint, count) => {
    const meant = troubleWithReadings(text, locale);
    expect(meant?.complaint).toBe(complaint);
    expect(meant?.readings).toHaveLength(count);
  });

  it.each(['filter 32 psi, vacuum 3', 'the cleaner is not moving', 'filter 32 psi, what lovely weather'])(
    'should not be found where it is not both: %s',
    (text) => {
      const meant = troubleWithReadings(text, 'en');
      expect(meant).toBeUndefined();
    },
  );

  it('should open the case with its readings answered', () => {
    const talk = talkOfTechnician();
    const said = talk.say(BOTH);
    expect(said.map(({ id }) => id)).toContain('verdict');
    expect(talk.state()).toBe('consult');
    expect(readIn(talk)).toEqual(['32 psi', '3 inHg']);
    talk.close();
  });

  it('should be read back as a whole where it was heard, and count with a yes', () => {
    const meant: Understood = {
      kind: 'readings',
      readings: [{ quantity: 'filter-pressure', value: 32, unit: 'psi' }],
      complaint: 'not-moving',
    };
    const asked = next(atThePool('technician', EQUIPMENT), {
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

describe('readings sent before a case', () => {
  it('should be its first answers', () => {
    const talk = talkOfTechnician();
    talk.say('filter 32 psi');
    talk.say('the cleaner is not moving');
    expect(readIn(talk)).toEqual(['32 psi']);
    talk.close();
  });

  it('should count by the latest of each gauge', () => {
    const talk = talkOfTechnician();
    talk.say('filter 32 psi');
    talk.say('filter 30 psi');
    talk.say('the cleaner is not moving');
    expect(readIn(talk)).toEqual(['30 psi']);
    talk.close();
  });

  it('should no longer count after a quarter of an hour, nor in the case after theirs', () => {
    const talk = talkOfTechnician();
    talk.say('filter 32 psi');
    talk.wait(20 * 60_000);
    talk.say('the cleaner is not moving');
    expect(readIn(talk)).toEqual([]);
    talk.say('vacuum 3');
    expect(readIn(talk)).toEqual(['3 inHg']);
    talk.say('/stop');
    talk.say('the cleaner is not moving');
    expect(readIn(talk)).toEqual([]);
    talk.close();
  });
});
