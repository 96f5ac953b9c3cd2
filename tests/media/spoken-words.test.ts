/** Messages as they are said. */
import { describe, expect, it } from 'vitest';
import { CAUTION_IDS, CHECK_IDS } from '../../src/knowledge/ids.ts';
import { translate } from '../../src/language/texts.ts';
import { spokenTurn, spokenWords, type Sayable } from '../../src/media/spoken-words.ts';

const said = (text: string, locale: 'en' | 'es' = 'en'): string =>
  spokenWords({ kind: 'info', text }, locale, translate)
    .map((part) => part.text)
    .join(' ');

describe('a spoken message', () => {
  it.each([
    ['Filter pressure 22 psi.', 'Filter pressure 22 P S I.'],
    ['Vacuum 9.5 inHg', 'Vacuum 9.5 inches of mercury.'],
    ['About 8–12 psi', 'About 8 to 12 P S I.'],
    ['40 gpm through 2 m of pipe', '40 gallons a minute through 2 metres of pipe.'],
    ['Send /help.', 'Send help.'],
    ['Say “done”.', 'Say done .'],
    ['– one\n– two', 'one. two.'],
    ['80 % sure ⚠️', '80 per cent sure.'],
    ['See https://example.org/a?b=c', 'See the link on your screen.'],
  ])('should say %j as people do', (text, expected) => expect(said(text)).toBe(expected));

  it('should say units in Spanish', () => {
    expect(said('Presión 22 psi, vacío 9 inHg', 'es')).toBe(
      'Presión 22 libras, vacío 9 pulgadas de mercurio.',
    );
  });

  it('should list no buttons', () => {
    const message = {
      kind: 'check',
      text: 'Is it clear?',
      options: [{ id: 'clear', label: 'Crystal' }],
    };
    expect(spokenWords(message, 'en', translate)).toEqual([{ text: 'Is it clear?' }]);
  });

  it('should say nothing of a picture or of nothing', () => {
    expect(spokenWords({ kind: 'picture', text: 'x' }, 'en', translate)).toEqual([]);
    expect(spokenWords({ kind: 'info', text: ' \n ' }, 'en', translate)).toEqual([]);
  });

  it('should end a long text at the end of a sentence, but never a caution', () => {
    const long = 'This is a sentence of some length. '.repeat(40);
    expect(said(long).length).toBeLessThan(660);
    expect(said(long)).toMatch(/length\. The rest is on your screen\.$/);
    const [caution] = spokenWords({ kind: 'caution', text: long }, 'en', translate);
    expect(caution?.text.length).toBeGreaterThan(1_300);
  });
});

describe('a caution', () => {
  it('should be said first, slowly, and whole', () => {
    const turn: Sayable[] = [
      { kind: 'info', text: 'Noted.' },
      { kind: 'caution', text: 'Switch the pump off.', options: [{ id: 'understood' }] },
    ];
    expect(spokenTurn(turn, 'en', translate)).toEqual([
      { text: 'Caution. Switch the pump off. Say “all done” when you have done so.', slow: true },
      { text: 'Noted.' },
    ]);
  });

  it('should be said of an emergency as well', () => {
    const [part] = spokenWords({ kind: 'result', text: 'Get out.', outcome: 'emergency' }, 'es', translate);
    expect(part).toEqual({ text: 'Peligro. Escuche con atención. Get out.', slow: true });
  });

  it.each(['en', 'es'] as const)('should leave no sign that cannot be said, in %s', (locale) => {
    const texts = [
      ...CAUTION_IDS.map((id) => translate(locale, `cautions:${id}.text`)),
      ...CHECK_IDS.map((id) => translate(locale, `checks:${id}.ask`)),
    ];
    for (const text of texts) {
      const words = spokenWords({ kind: 'caution', text }, locale, translate)[0]?.text ?? '';
      expect(words).not.toMatch(/[/<>*_|•→{}]|inHg|\bpsi\b/);
      expect(words.length).toBeGreaterThan(20);
    }
  });
});
