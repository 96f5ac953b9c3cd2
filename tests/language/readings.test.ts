import { describe, expect, it } from 'vitest';
import type { Locale } from '../../src/dialogues/event.ts';
import { understand } from '../../src/language/understanding/understand.ts';
import { askedFor } from './asked.ts';
import { meaningText } from './phrase-table.ts';

const EN_SMALL =
  'zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen fifteen sixteen seventeen eighteen nineteen'.split(
    ' ',
  );
const EN_TENS = ' ten twenty thirty forty fifty sixty seventy eighty ninety'.split(' ');
const ES_SMALL =
  'cero uno dos tres cuatro cinco seis siete ocho nueve diez once doce trece catorce quince dieciséis diecisiete dieciocho diecinueve veinte veintiuno veintidós veintitrés veinticuatro veinticinco veintiséis veintisiete veintiocho veintinueve'.split(
    ' ',
  );
const ES_TENS = ' diez veinte treinta cuarenta cincuenta sesenta setenta ochenta noventa'.split(' ');

/** A whole number from 0 to 199 spelt out by the grammar of each language; no source needed. */
function spelt(value: number, locale: Locale): string {
  const [small, tens, join] = locale === 'en' ? [EN_SMALL, EN_TENS, '-'] : [ES_SMALL, ES_TENS, ' y '];
  if (value >= 100) {
    const hundred = locale === 'en' ? 'a hundred' : value === 100 ? 'cien' : 'ciento';
    const rest = value === 100 ? '' : `${locale === 'en' ? ' and ' : ' '}${spelt(value - 100, locale)}`;
    return hundred + rest;
  }
  if (value < small.length) return small[value]!;
  return tens[Math.floor(value / 10)]! + (value % 10 === 0 ? '' : join + small[value % 10]!);
}

const POINT = { en: 'point', es: 'coma' } as const;
const HALF = { en: 'and a half', es: 'y medio' } as const;
const UNITS = {
  en: { psi: 'psi', bar: 'bar', kPa: 'kilopascals' },
  es: { psi: 'libras', bar: 'bares', kPa: 'kilopascales' },
} as const;

const WHOLE = Array.from({ length: 200 }, (_, value) => value);

describe.each(['en', 'es'] as const)('numbers in %s', (locale) => {
  const said = (text: string): string =>
    meaningText(understand(text, askedFor('filter-pressure', locale), locale));

  it('should read every whole number to 199 in words and in digits', () => {
    for (const value of WHOLE)
      for (const text of [spelt(value, locale), String(value), `${value} psi`, `${value}psi`])
        expect(said(text), text).toBe(`filter-pressure ${value} psi`);
  });

  it('should read every tenth and every half in words and in digits', () => {
    for (const value of WHOLE) {
      expect(said(`${spelt(value, locale)} ${HALF[locale]}`)).toBe(`filter-pressure ${value + 0.5} psi`);
      for (let tenth = 1; tenth < 10; tenth += 1) {
        const wanted = `filter-pressure ${Number(`${value}.${tenth}`)} psi`;
        expect(said(`${value}.${tenth}`)).toBe(wanted);
        expect(said(`${value},${tenth}`)).toBe(wanted);
        expect(said(`${spelt(value, locale)} ${POINT[locale]} ${spelt(tenth, locale)}`)).toBe(wanted);
      }
    }
  });

  it('should keep the unit that is said', () => {
    for (const value of WHOLE)
      for (const [unit, word] of Object.entries(UNITS[locale]))
        expect(said(`${spelt(value, locale)} ${word}`)).toBe(`filter-pressure ${value} ${unit}`);
  });

  it('should give the middle of every range, and call it unsteady', () => {
    const [between, and, to] = locale === 'en' ? ['between', 'and', 'to'] : ['entre', 'y', 'a'];
    for (let low = 2; low < 40; low += 1)
      for (let high = low + 1; high < low + 12; high += 3) {
        const wanted = `filter-pressure ${(low + high) / 2} psi unsteady`;
        expect(said(`${between} ${spelt(low, locale)} ${and} ${spelt(high, locale)}`)).toBe(wanted);
        expect(said(`${low} ${to} ${high}`)).toBe(wanted);
        expect(said(`${low}-${high} psi`)).toBe(wanted);
      }
  });

  it('should take the last of corrected numbers', () => {
    const sorry = locale === 'en' ? 'sorry' : 'perdón';
    for (let value = 2; value < 60; value += 1)
      expect(said(`${spelt(value + 3, locale)}, ${sorry}, ${spelt(value, locale)}`)).toBe(
        `filter-pressure ${value} psi`,
      );
  });
});
