/** Closing a visit by taps and by one line; what is kept, what the owner is told, and what the next case learns. */
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { PA_PER_PSI } from '../../src/calc/units.ts';
import type { Locale } from '../../src/dialogues/event.ts';
import type { Crowd } from '../driver/crowd.ts';
import { gotBy, GROUP, someCompany, stateOf, visitOf } from './visit-crowd.ts';

let crowd: Crowd;
let visit: string;

beforeEach(() => {
  crowd = someCompany(true).crowd;
  visit = visitOf(crowd);
  crowd.choose('dee', `assign-visit/${visit}`, GROUP);
  crowd.choose('dee', 'test:tess', GROUP);
});
afterEach(() => {
  crowd.close();
});

interface ClosingRow {
  cause: string;
  first_suspect: string;
  repair: string;
  parts: string;
  minutes: number;
  closed_by: string;
}

function closing(): ClosingRow | undefined {
  return crowd.database
    .prepare<[], ClosingRow>('SELECT cause, first_suspect, repair, parts, minutes, closed_by FROM closing')
    .get();
}

function caseOfVisit(): { outcome: string; fault: string } | undefined {
  return crowd.database
    .prepare<[], { outcome: string; fault: string }>(
      "SELECT outcome, fault FROM consult WHERE id = (SELECT consult FROM visit WHERE state = 'closed')",
    )
    .get();
}

function readings(): { quantity: string; value: number; clean: number }[] {
  return crowd.database
    .prepare<[], { quantity: string; value: number; clean: number }>(
      "SELECT quantity, value, clean FROM reading WHERE pool = (SELECT pool FROM visit) AND said NOT LIKE '13 %'",
    )
    .all();
}

/** Taps a button that is on the screen, and counts it. */
function tapper(): { tap: (option: string) => string[]; taps: () => number } {
  let shown: string[] = [`close-visit/${visit}`];
  let count = 0;
  return {
    tap: (option) => {
      expect(shown).toContain(option);
      count += 1;
      shown =
        crowd
          .choose('tess', option)
          .at(-1)
          ?.options?.map(({ id }) => id) ?? [];
      return shown;
    },
    taps: () => count,
  };
}

describe('closing by taps', () => {
  it('should take four for a suspect', () => {
    const { tap, taps } = tapper();
    const [suspect = ''] = tap(`close-visit/${visit}`);
    tap(suspect);
    tap('usual-part');
    tap('30');
    expect(taps()).toBe(4);
    expect(stateOf(crowd, visit)).toBe('closed');
    expect(closing()).toEqual({
      cause: suspect,
      first_suspect: suspect,
      repair: 'done',
      parts: 'usual',
      minutes: 30,
      closed_by: 'test:tess',
    });
    expect(caseOfVisit()).toEqual({ outcome: 'visit', fault: suspect });
  });

  it('should take five for a cause of the list', () => {
    const { tap, taps } = tapper();
    const suspects = tap(`close-visit/${visit}`);
    const [other = ''] = tap('other-cause');
    expect(suspects).not.toContain(other);
    tap(other);
    tap('not-repaired');
    tap('90');
    expect(taps()).toBe(5);
    expect(closing()).toMatchObject({ cause: other, repair: '', parts: '', minutes: 90 });
  });

  it('should page through every cause, each once', () => {
    const { tap } = tapper();
    const first = tap(`close-visit/${visit}`);
    const seen = first.filter((id) => id !== 'other-cause');
    let shown = tap('other-cause');
    while (shown.includes('more-causes')) {
      seen.push(...shown.filter((id) => id !== 'more-causes'));
      shown = tap('more-causes');
    }
    seen.push(...shown);
    expect(new Set(seen).size).toBe(seen.length);
    expect(seen).toEqual(expect.arrayContaining(['lid-oring-worn', 'something-else', 'motor-worn']));
  });

  it('should take words in place of any tap, and ask only for what is missing', () => {
    crowd.choose('tess', `close-visit/${visit}`);
    expect(crowd.say('tess', 'lid O-ring, filter 14 psi').at(-1)?.id).toBe('closing-repair');
    expect(crowd.say('tess', 'spare part from the truck').at(-1)?.id).toBe('closing-minutes');
    crowd.say('tess', '25');
    expect(closing()).toMatchObject({
      cause: 'lid-oring-worn',
      parts: 'spare part from the truck',
      minutes: 25,
    });
    expect(readings()).toEqual([
      { quantity: 'filter-pressure', value: expect.closeTo(14 * PA_PER_PSI, 3) as number, clean: 0 },
    ]);
  });
});

describe('closing by one line', () => {
  const LINES: { locale: Locale; line: string }[] = [
    { locale: 'en', line: 'closed: lid O-ring, new ring, 25 minutes, filter 14 psi, vacuum 6' },
    { locale: 'en', line: 'closed lid o-ring new ring twenty five minutes filter fourteen psi vacuum six' },
    { locale: 'es', line: 'cerrada: junta de la tapa, junta nueva, 25 minutos, filtro 14 psi, vacío 6' },
    {
      locale: 'es',
      line: 'Cerrado, junta de la tapa de la bomba, puse una junta nueva, veinticinco minutos, filtro catorce psi, vacío seis',
    },
  ];

  it.each(LINES)('$line', ({ locale, line }) => {
    if (locale === 'es') {
      crowd.say('tess', '/language');
      crowd.choose('tess', 'es');
    }
    crowd.say('tess', line);
    expect(stateOf(crowd, visit)).toBe('closed');
    expect(closing()).toMatchObject({ cause: 'lid-oring-worn', repair: 'done', minutes: 25 });
    expect(closing()?.parts).toMatch(locale === 'en' ? /new ring/ : /junta nueva/);
    expect(readings()).toEqual([
      { quantity: 'filter-pressure', value: expect.closeTo(14 * PA_PER_PSI, 3) as number, clean: 0 },
      { quantity: 'pump-vacuum', value: expect.closeTo(6 * 3386.389, 0) as number, clean: 0 },
    ]);
  });

  it('should give the owner a summary in plain words, in Spanish', () => {
    const since = crowd.got.length;
    crowd.say('tess', 'closed: lid O-ring, 25 minutes, repaired, filter 14 psi, clean');
    const [summary, ...more] = gotBy(crowd, 'eva', since);
    expect(more).toEqual([]);
    expect(summary?.text.split('\n')).toEqual([
      'Blue Heron Pools estuvo en Garden of Ada.',
      'Lo que era: una junta tórica gastada en la tapa de la bomba.',
      expect.stringContaining('tapa'),
      'Está reparado.',
      'Llevó 25 minutos.',
      'Manómetros ahora, en limpio: Presión del filtro 14 psi.',
    ]);
  });

  it('should take clean readings where it is said, and no others', () => {
    crowd.say('tess', 'closed: dirty filter, cleaned it, 40 minutes, filter 12 psi, clean');
    expect(readings()).toEqual([
      { quantity: 'filter-pressure', value: expect.closeTo(12 * PA_PER_PSI, 3) as number, clean: 1 },
    ]);
  });

  it('should ask which visit where the day holds several', () => {
    const second = visitOf(crowd, 'bob');
    crowd.choose('tess', `assign-visit/${second}`, GROUP);
    const [which] = crowd.say('tess', 'closed: lid O-ring, new ring, 25 minutes');
    expect(which?.options?.map(({ id }) => id)).toEqual([visit, second, 'done']);
    crowd.choose('tess', second);
    expect([stateOf(crowd, visit), stateOf(crowd, second)]).toEqual(['assigned', 'closed']);
  });

  it('should not take the words of an owner for it', () => {
    crowd.say('eva', 'closed: lid O-ring, new ring, 25 minutes');
    expect(stateOf(crowd, visit)).toBe('assigned');
  });

  it('should leave out a reading that cannot be right, and say so', () => {
    const [kept] = crowd.say('tess', 'closed: lid O-ring, new ring, 25 minutes, filter 400 psi');
    expect(kept?.text).toContain('cannot be right');
    expect(readings()).toEqual([]);
  });
});
