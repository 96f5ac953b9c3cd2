/** What is understood of the line in which a technician tells that a visit is done. */
import { describe, expect, it } from 'vitest';
import type { Locale } from '../../src/dialogues/event.ts';
import { FAULT_IDS } from '../../src/knowledge/ids.ts';
import { closingIn, closingLine } from '../../src/language/understanding/closing.ts';
import { translate } from '../../src/language/texts.ts';

describe('the words of a line', () => {
  it.each<[string, Locale, Partial<ReturnType<typeof closingIn>>]>([
    [
      'done, impeller clogged, cleared it, 1 hour',
      'en',
      { causes: ['impeller-clogged'], isRepaired: true, minutes: 60 },
    ],
    [
      'split hose, replaced two sections, 20 min',
      'en',
      { causes: ['hose-split'], isRepaired: true, minutes: 20 },
    ],
    [
      'shaft seal, could not be repaired, 15 minutes',
      'en',
      { causes: ['shaft-seal-leak'], isRepaired: false, minutes: 15 },
    ],
    [
      'sello mecánico, no se pudo reparar, falta la pieza, media hora',
      'es',
      { causes: ['shaft-seal-leak'], isRepaired: false },
    ],
    [
      'impulsor tapado, limpiado, 45 min',
      'es',
      { causes: ['impeller-clogged'], isRepaired: true, minutes: 45 },
    ],
    [
      'filtro sucio, lavado, 40 minutos, presión 12 psi, limpio',
      'es',
      { causes: ['filter-dirty'], minutes: 40, clean: true },
    ],
    ...['not the lid O-ring', 'lid O-ring was fine'].map((denied): [string, Locale, object] => [
      `${denied}, impeller clogged, cleared it, 40 minutes`,
      'en',
      { causes: ['impeller-clogged'], isRepaired: true, minutes: 40 },
    ]),
    ['another cause, 10 minutes', 'en', { causes: ['something-else'], minutes: 10 }],
    ['hello there', 'en', { causes: [], readings: [] }],
    ['25', 'en', { causes: [], minutes: 25, readings: [] }],
    [
      'cerrada junta de la tapa junta nueva veinticinco minutos',
      'es',
      { causes: ['lid-oring-worn'], parts: 'junta nueva', minutes: 25 },
    ],
    [
      'cerrado: sello mecanico, puse un sello nuevo, 2 horas',
      'es',
      { causes: ['shaft-seal-leak'], parts: 'puse un sello nuevo', minutes: 120 },
    ],
  ])('%s', (line, locale, expected) => {
    expect(closingIn(line, locale)).toMatchObject(expected);
  });

  it('should not take an answer to another question for a visit that is done', () => {
    for (const line of ['closed', 'closed, the left one', 'done', 'cerrado', 'listo', 'closed: yes'])
      expect(closingLine(line, 'en')).toBeUndefined();
  });

  it.each<Locale>(['en', 'es'])('should know every cause by its name in %s', (locale) => {
    const missed = FAULT_IDS.filter((fault) => {
      const { causes } = closingIn(
        `closed: ${translate(locale, `faults:${fault}.name`)}, 20 minutes`,
        locale,
      );
      return causes[0] !== fault;
    });
    expect(missed).toEqual([]);
  });
});
