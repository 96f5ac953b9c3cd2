import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { LOCALES, type Asked } from '../../src/dialogues/event.ts';
import { understand } from '../../src/language/understanding/understand.ts';
import { askedFor } from './asked.ts';

const QUESTIONS: (Asked | undefined)[] = [
  '-',
  'filter-pressure',
  'pump-lid-look',
  'caution',
  'complaint',
].map((id) => askedFor(id, 'en'));

const LONG_TEXTS = {
  'one letter': 'a'.repeat(100_000),
  digits: '9'.repeat(100_000),
  'numbers in a row': '22 psi '.repeat(15_000),
  'smoke and no smoke': 'no smoke on the motor '.repeat(5_000),
  'people and drains': 'my son hair hand stuck not '.repeat(4_000),
  'all different words': Array.from({ length: 15_000 }, (_, at) => `w${at.toString(36)}x`).join(' '),
  'misspelt dangers': 'smoek brekaer chlorien drwoning '.repeat(3_200),
  commas: ','.repeat(100_000),
  'zero-width': '\u200b'.repeat(100_000),
  accents: 'e\u0301\u0301\u0301'.repeat(25_000),
  'null characters': '\u0000'.repeat(100_000),
  emoji: '👩‍👩‍👧‍👦'.repeat(9_000),
  'quotes and slashes': '"/'.repeat(50_000),
  ligatures: '\uFDFA'.repeat(100_000),
};

describe('whatever is typed', () => {
  it('should never throw and always give a known kind of answer', () => {
    fc.assert(
      fc.property(
        fc.oneof(
          fc.string({ unit: 'binary', maxLength: 300 }),
          fc.string({ unit: 'grapheme', maxLength: 300 }),
          fc
            .array(
              fc.constantFrom(
                'no',
                'smoke',
                'psi',
                '22',
                'to',
                '-',
                'y',
                'un',
                'half',
                'filter',
                'and',
                ',',
                '.',
                '1/0',
                'a',
                'point',
                'constructor',
                '__proto__',
              ),
            )
            .map((words) => words.join(' ')),
        ),
        fc.constantFrom(...QUESTIONS),
        fc.constantFrom(...LOCALES),
        (text, asked, locale) => {
          const understood = understand(text, asked, locale);
          if (understood.kind === 'readings')
            for (const { value } of understood.readings) expect(Number.isFinite(value)).toBe(true);
          if (understood.kind === 'answer')
            expect(asked?.options.map(({ id }) => id)).toContain(understood.option);
        },
      ),
      { numRuns: 1500 },
    );
  });

  it.each(Object.entries(LONG_TEXTS))(
    'should read 100,000 characters of %s as it reads their two ends',
    (_, text) => {
      const ends = text.slice(0, 800) + ' ' + text.slice(-800);
      for (const asked of QUESTIONS)
        expect(understand(text, asked, 'en').kind).toBe(understand(ends, asked, 'en').kind);
    },
  );

  it('should read a text with hidden characters as it is seen', () => {
    const asked = askedFor('filter-pressure', 'en');
    const readings = {
      kind: 'readings',
      readings: [{ quantity: 'filter-pressure', value: 22, unit: 'psi' }],
    };
    for (const text of [
      '2\u200b2 p\u200dsi',
      '\u202e22 psi\u202c',
      '22\u0000 psi',
      '\ufeff22 psi',
      '２２ psi',
      '22\u00a0psi 🙂',
    ])
      expect(understand(text, asked, 'en')).toEqual(readings);
    expect(understand('s\u200bm\u200boke', asked, 'en')).toEqual({
      kind: 'emergency',
      id: 'smoke-or-burning',
    });
    expect(understand('sm\u0000oke', asked, 'en')).toEqual({ kind: 'emergency', id: 'smoke-or-burning' });
  });

  it('should hear a cry for help at the end of a very long message', () => {
    const text = `${'the pool is nice '.repeat(6_000)} my son is drowning`;
    expect(understand(text, undefined, 'en')).toEqual({ kind: 'emergency', id: 'person-hurt' });
  });
});
