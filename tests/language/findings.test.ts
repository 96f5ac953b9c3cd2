/** Several things in one message: readings and findings, asked for or not, and nothing of it guessed. */
import { describe, expect, it } from 'vitest';
import { severalIn } from '../../src/language/findings.ts';
import { understand } from '../../src/language/understanding/understand.ts';
import { askedFor } from './asked.ts';

const LID = askedFor('pump-lid-look', 'en');
const told = (text: string, locale: 'en' | 'es' = 'en'): string[] | undefined => {
  const several = severalIn(text, locale === 'en' ? LID : askedFor('pump-lid-look', 'es'), locale);
  return (
    several && [
      ...several.readings.map(({ quantity, value, unit }) => `${quantity} ${value} ${unit}`),
      ...several.findings.map(({ check, outcome }) => `${check} ${outcome}`),
    ]
  );
};

describe('several things in one message', () => {
  it.each([
    [
      'skimmer basket full, returns weak, filter 20',
      ['filter-pressure 20 psi', 'skimmer-look basket-full', 'return-flow weak'],
    ],
    [
      'filter twenty two and the skimmer basket is full',
      ['filter-pressure 22 psi', 'skimmer-look basket-full'],
    ],
    ['half empty, vacuum 9', ['pump-vacuum 9 inHg', 'pump-lid-look half-empty']],
    ['weak flow at the returns', ['return-flow weak']],
    [
      'skimmer basket full returns weak filter twenty',
      ['filter-pressure 20 psi', 'skimmer-look basket-full', 'return-flow weak'],
    ],
    ['half empty vacuum nine', ['pump-vacuum 9 inHg', 'pump-lid-look half-empty']],
    ['the lid o ring is dry', ['lid-oring-look dry-or-flattened']],
    ['the filter was cleaned months ago', ['filter-last-cleaned overdue']],
    [
      'we backwashed the filter on saturday and vacuum 9',
      ['pump-vacuum 9 inHg', 'filter-last-cleaned recent'],
    ],
    [
      'vacuum 9; filter 20; strainer basket is cracked',
      ['pump-vacuum 9 inHg', 'filter-pressure 20 psi', 'strainer-basket cracked'],
    ],
  ])('should all be found in: %s', (text, things) => expect(told(text)).toEqual(things));

  it.each([
    ['canastilla del skimmer llena y vacío 9', ['pump-vacuum 9 inHg', 'skimmer-look basket-full']],
    ['retornos flojos y filtro 20', ['filter-pressure 20 psi', 'return-flow weak']],
    ['nivel de agua bajo y filtro quince', ['filter-pressure 15 psi', 'water-level low']],
    ['lavamos el filtro la semana pasada', ['filter-last-cleaned recent']],
    ['retornos con burbujas, vacío cuatro', ['pump-vacuum 4 inHg', 'return-flow bubbles']],
  ])('should be found in Spanish: %s', (text, things) => expect(told(text, 'es')).toEqual(things));

  it.each([
    'filter 20, vacuum 9',
    'filter 20, my neighbour came by, skimmer basket full',
    'skimmer basket full, skimmer all fine',
    'half empty',
    'hello there',
    '',
    'filter 20, filter 30, skimmer basket full',
  ])('should be left to be understood otherwise, or asked again: %s', (text) =>
    expect(told(text)).toBeUndefined(),
  );
});

describe('a flow', () => {
  it.each([
    ['flow 40 gpm', 40, 'gpm'],
    ['flow is forty gallons a minute', 40, 'gpm'],
    ['9.5 m3/h', 9.5, 'm3/h'],
    ['flow meter says 9 m³/h', 9, 'm3/h'],
    ['flow 150 l/min', 150, 'l/min'],
    ['flow rate 150 litres per minute', 150, 'l/min'],
    ['the flow is 45', 45, 'gpm'],
    ['caudal 9 metros cúbicos por hora', 9, 'm3/h'],
    ['caudal 150 litros por minuto', 150, 'l/min'],
    ['caudal cuarenta galones por minuto', 40, 'gpm'],
  ] as const)('should be understood: %s', (text, value, unit) =>
    expect(understand(text, undefined, 'es')).toEqual({
      kind: 'readings',
      readings: [{ quantity: 'flow', value, unit }],
    }),
  );

  it('should stand beside other readings, in any order', () => {
    const all = [
      { quantity: 'filter-pressure', value: 22, unit: 'psi' },
      { quantity: 'flow', value: 40, unit: 'gpm' },
    ];
    expect(understand('filter 22, flow 40 gpm', undefined, 'en')).toEqual({
      kind: 'readings',
      readings: all,
    });
    expect(understand('flow 40 gpm and filter 22 psi', undefined, 'en')).toEqual({
      kind: 'readings',
      readings: all.toReversed(),
    });
  });

  it('should not be made of gallons or of minutes', () => {
    for (const text of ['15000 gallons', 'it took 40 minutes', 'weak flow', 'the flow is weak'])
      expect(understand(text, undefined, 'en').kind).not.toBe('readings');
  });
});
