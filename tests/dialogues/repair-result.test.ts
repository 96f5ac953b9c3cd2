/** How a repair went: what counts as a cure, and what is told with it. */
import { describe, expect, it } from 'vitest';
import type { Talk } from '../driver/talk.ts';
import type { Understood } from '../../src/dialogues/event.ts';
import { rendered } from '../../src/language/render.ts';
import { eventsIn, PLAIN, readIn, technicianAtPlainPool } from './plain-pool.ts';
import { atThePool, next } from './walker.ts';

/** At the repair of a dirty filter, every caution acknowledged. */
function atTheRepair(): Talk {
  const talk = technicianAtPlainPool();
  let says = talk.say('cleaner not moving, filter thirty two, vacuum three');
  for (const answer of ['weak', 'overdue', 'ok', 'ok', 'ok', 'ok', 'ok', 'ok'])
    if (says.at(-1)?.kind !== 'repair') says = talk.say(answer);
  expect(says.at(-1)?.kind).toBe('repair');
  return talk;
}

describe('a repair', () => {
  it.each(['yes it runs now filter fourteen vacuum seven', 'it works now, filter 14, vacuum 7'])(
    'should be cured with the readings noted: %s',
    (text) => {
      const talk = atTheRepair();
      expect(talk.say(text).map(({ id }) => id)).toContain('fixed');
      const said = talk.pools()[0]?.readings.map((reading) => reading.said);
      expect(said?.slice(-2)).toEqual(['14 psi', '7 inHg']);
      talk.close();
    },
  );

  it.each(['ok', 'done', 'its better but not great', 'its running out of water'])(
    'should stay open, and be asked after: %s',
    (text) => {
      const talk = atTheRepair();
      const says = talk.say(text);
      expect(says.at(-1)?.kind).toBe('repair');
      expect(says[0]?.id).toBe('unclear');
      talk.close();
    },
  );

  it('should go on with what the gauges show since, where it did not help', () => {
    const talk = atTheRepair();
    talk.say('still not right, filter thirty');
    expect(eventsIn(talk).some((event) => event.kind === 'repair' && event.result === 'not-yet')).toBe(true);
    expect(readIn(talk).at(-1)).toBe('30 psi');
    talk.close();
  });

  it('should have its result read back with the rest where it was heard', () => {
    const meant: Understood = {
      kind: 'findings',
      findings: [],
      readings: [{ quantity: 'filter-pressure', value: 14, unit: 'psi' }],
      result: 'worked',
    };
    const asked = next(atThePool('technician', PLAIN), { kind: 'heard', meant, others: [], isSure: true });
    expect(rendered(asked.says.at(-1)!, 'en').text).toContain('Yes, it runs now');
  });
});
