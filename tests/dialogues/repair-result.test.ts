/** How a repair went: what counts as a cure, and what is told with it. */
import { describe, expect, it } from 'vitest';
import type { Talk } from '../driver/talk.ts';
import { technicianAtPlainPool } from './plain-pool.ts';

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
});
