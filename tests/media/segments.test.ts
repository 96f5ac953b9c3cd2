/** Reading and judging what the decoder wrote. */
import { describe, expect, it } from 'vitest';
import { confidenceOf, isBelieved, judged } from '../../src/media/sphinx/judge.ts';
import { fit, segmentsIn, textOf } from '../../src/media/sphinx/segments.ts';

/** Printed by pocketsphinx_batch 5prealpha for "filter pressure twenty psi" and its loop of phones, shortened. */
const WORDS =
  'b S 0 T -8164 A -7490 L -674 0 -146 -337 <sil> 15 -1299 0 filter 63 -1039 0 pressure(2) 103 0 0 (NULL) 104 -1923 0 twenty 149 -2816 0 psi 210 -267 -337 <sil> 224';
const PHONES = 'b S 0 T -13776 A -5906 L -7870 0 -178 0 SIL 17 -5551 -281 F 209 -177 -353 SIL 224';

describe('a line of segments', () => {
  it('should give words with their frames and scores', () => {
    const segments = segmentsIn(WORDS);
    expect(textOf(segments)).toBe('filter pressure twenty psi');
    expect(segments[1]).toEqual({ word: 'filter', start: 15, end: 62, acoustic: -1299 });
    expect(segments.at(-1)).toEqual({ word: '<sil>', start: 210, end: 224, acoustic: -267 });
  });

  it.each([
    '',
    'b',
    'b S 0 T 0 A 0 L 0',
    'b S 0 T 0 A 0 L 0 0',
    'nonsense in many words that is no line at all',
  ])('should survive %j', (line) => expect(() => segmentsIn(line)).not.toThrow());
});

describe('the fit of words', () => {
  it('should be the difference of scores for each spoken frame', () => {
    const { whole, worst } = fit(segmentsIn(WORDS), segmentsIn(PHONES));
    const spoken = 210 - 15 - 1; // frame 103 to 103 is an empty transition
    expect(whole).toBeCloseTo((-7490 + 5906) / spoken, 6);
    expect(worst).toBeLessThan(whole);
  });

  it('should be as low as can be where nothing was said', () => {
    expect(fit([], segmentsIn(PHONES)).whole).toBe(-Infinity);
  });

  it('should not be judged where the ends differ', () => {
    const cut = segmentsIn('b S 0 T 0 A -178 L 0 0 -178 0 SIL 17 -551 0 F 150');
    expect(judged(segmentsIn(WORDS), segmentsIn(PHONES))?.text).toBe('filter pressure twenty psi');
    expect(judged(segmentsIn(WORDS), cut)).toBeUndefined();
    expect(judged([], segmentsIn(PHONES))).toBeUndefined();
  });

  it('should have to be better in noise', () => {
    const middling = { whole: -29, worst: -30 };
    expect(isBelieved(middling, 70)).toBe(true);
    expect(isBelieved(middling, 26)).toBe(false);
    expect(isBelieved({ whole: -5, worst: -60 }, 70)).toBe(false);
    expect(confidenceOf({ whole: -34, worst: 0 }, 70)).toBeCloseTo(0.5);
    expect(confidenceOf({ whole: 0, worst: 0 }, 70)).toBeGreaterThan(0.99);
  });
});
