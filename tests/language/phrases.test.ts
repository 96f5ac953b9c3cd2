import { describe, expect, it } from 'vitest';
import { LOCALES } from '../../src/dialogues/event.ts';
import { checkedPhrasesOf, phrasesOf, understoodText, type Phrase } from './phrase-table.ts';

const LEAST_LINES = { en: 320, es: 220 } as const;
const LEAST_RIGHT = 0.97;
const MOST_WRONG_READINGS = 0.01;

const isReading = (meaning: string): boolean => / (psi|bar|kPa|inHg|ft|m|turns\/min)\b/u.test(meaning);

const withoutMarks = (meaning: string): string => meaning.replace(/ (unsteady|earlier)/gu, '');

/** Lines at even places served for building, lines at odd places only for scoring. */
const half = (phrases: readonly Phrase[], odd: boolean): Phrase[] =>
  phrases.filter((_, place) => (place % 2 === 1) === odd);

const show = (share: number): string => `${(100 * share).toFixed(1)} %`;

describe.each(LOCALES)('phrases in %s', (locale) => {
  const phrases = phrasesOf(locale);
  const isRight = (phrase: Phrase): boolean => understoodText(phrase, locale) === phrase.meaning;
  const rightShare = (some: readonly Phrase[]): number => some.filter(isRight).length / some.length;

  it('has lines enough', () => {
    expect(phrases.length).toBeGreaterThanOrEqual(LEAST_LINES[locale]);
  });

  it('should understand the lines used for building and, as well, those only scored', () => {
    const building = rightShare(half(phrases, false));
    const scored = rightShare(half(phrases, true));
    console.log(
      `${locale}: right in the building half ${show(building)}, in the scored half ${show(scored)}`,
    );
    expect(scored).toBeGreaterThanOrEqual(LEAST_RIGHT);
  });

  it.each(checkedPhrasesOf(locale))('should take "$text" at $asked for: $meaning', (phrase) => {
    expect(understoodText(phrase, locale)).toBe(phrase.meaning);
  });

  it('should hardly ever give a reading a wrong value or unit', () => {
    const told = half(phrases, true).filter(({ meaning }) => isReading(meaning));
    const wrong = half(phrases, true).filter((phrase) => {
      const said = understoodText(phrase, locale);
      return isReading(said) && withoutMarks(said) !== withoutMarks(phrase.meaning);
    });
    console.log(`${locale}: ${wrong.length} wrong readings beside ${told.length} that were told`);
    expect(wrong.length / told.length).toBeLessThanOrEqual(MOST_WRONG_READINGS);
  });
});
