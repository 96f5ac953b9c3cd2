import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { amountsIn } from '../../src/dialogues/calculators/amounts.ts';
import { CALCULATORS, isChoice } from '../../src/dialogues/calculators/fields.ts';
import { TABLE } from '../../src/dialogues/calculators/table.ts';
import type { Flow } from '../../src/dialogues/conversation.ts';
import type { Locale } from '../../src/dialogues/event.ts';
import { LOCALES } from '../../src/dialogues/event.ts';
import type { Message } from '../../src/dialogues/message.ts';
import { interpret } from '../../src/language/interpret.ts';
import { rendered } from '../../src/language/render.ts';
import { atThePool, facts, next } from './walker.ts';
import type { Place } from './walker.ts';

function home(locale: Locale): Place {
  const place = atThePool('technician', {
    cleaner: 'suction',
    connection: 'skimmer',
    canister: 'no',
    pump: 'single-speed',
    filter: 'de',
    multiport: 'yes',
  });
  return { ...place, conversation: { ...place.conversation, locale } };
}

/** The place after a person typed something. */
function typed(place: Place, text: string): Place {
  return next(place, interpret(text, { conversation: place.conversation, facts: facts(place) }));
}

const after = (locale: Locale, ...texts: readonly string[]): Place => texts.reduce(typed, home(locale));

function messages({ says, conversation }: Place): Message[] {
  return says.map((say) => rendered(say, conversation.locale));
}

const said = (place: Place): string =>
  messages(place)
    .map(({ text }) => text)
    .join('\n');

const asked = (place: Place): string | undefined => place.says.at(-1)?.id;

describe('amounts', () => {
  const amount = (value: number, unit?: string): object => ({
    kind: 'amount',
    value,
    ...(unit === undefined ? {} : { unit }),
  });

  it.each([
    ['45 gpm', [amount(45, 'gpm')]],
    ['1½ in', [amount(1.5, 'in')]],
    ['1 1/2 pulgadas', [amount(1.5, 'in')]],
    ['3/4"', [amount(0.75, 'in')]],
    ['48 ft²', [amount(48, 'ft2')]],
    ['8 metros cúbicos por hora', [amount(8, 'm3/h')]],
    ['2 gal/min', [amount(2, 'gpm')]],
    ['1:20', [amount(20, 'parts')]],
    ['1 a 20', [amount(20, 'parts')]],
    ['60%', [amount(60, '%')]],
    ['15k gal', [amount(15_000, 'gal')]],
    ['0,15', [amount(0.15)]],
    ['-5 ft', [amount(-5, 'ft')]],
    ['3.5-8 ft', [amount(3.5), amount(8, 'ft')]],
    ['32x16', [amount(32), amount(16)]],
    ['10 inHg', [amount(10, 'inHg')]],
    ['1.234,5 L', [amount(1234.5, 'L')]],
    ['15,000 gal', [{ ...amount(15_000, 'gal'), otherwise: 15 }]],
    ['15.000 gal', [{ ...amount(15, 'gal'), otherwise: 15_000 }]],
  ])('should read "%s"', (text, expected) => {
    expect(amountsIn(text)).toEqual(expected);
  });

  it('should name a word after a number that is no unit', () => {
    expect(amountsIn('45 furlongs')).toContainEqual({ kind: 'strange', word: 'furlongs' });
  });

  it('should end on any string, with finite numbers only', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'grapheme', maxLength: 250 }), (text) => {
        for (const each of amountsIn(text))
          if (each.kind === 'amount') expect(Number.isFinite(each.value)).toBe(true);
      }),
      { numRuns: 2000, seed: 7 },
    );
  });
});

describe('a calculator in one line', () => {
  // Each expected number: 231 in³ a gallon (NIST Handbook 44), geometry, affinity laws, and arithmetic by hand.
  it.each<[Locale, string, readonly string[]]>([
    ['en', '/turnover 15000 gal 45 gpm', ['15,000 US gal, 45 gpm: one turnover in 5.56 h', '4.32 a day']],
    ['en', '/turnover 45 gpm 15000', ['15,000 US gal, 45 gpm: one turnover in 5.56 h']],
    ['en', '/turnover 15,000 gal 8 hours', ['you need 31.3 gpm']],
    ['es', '/renovación 15.000 galones 45 gpm', ['15.000 gal EE. UU., 45 gpm: una renovación en 5,56 h']],
    [
      'en',
      '/volume rectangle 32 16 3.5 8 ft',
      ['Rectangle, 32 ft, 16 ft', '22,000 US gal (83,400 L, 83.4 m³)'],
    ],
    ['en', '/volume oval 32\'6" x 16 x 5 ft', ['Oval, 32.5 ft, 16 ft, 5 ft', '15,300 US gal']],
    ['es', '/volumen círculo 7 m 1,2', ['Círculo, 7 m, 1,2 m', '12.200 gal EE. UU. (46.200 L, 46,2 m³)']],
    ['en', '/volume kidney 32 18 14 5 ft', ['17,200 US gal', 'APPROXIMATE']],
    [
      'en',
      '/headloss 1.5 in 60 ft 45 gpm',
      ['6.62 ft', '2.87 psi', 'WARNING: velocity 7.09 ft/s', 'No fittings'],
    ],
    ['en', '/headloss 1½ 60 70 4', ['for return pipe, limit 8 ft/s', 'Fittings counted: 4']],
    ['es', '/perdida 63 mm 20 m 15 m3/h', ['57 mm', 'dentro de los límites']],
    ['en', '/speed 60%', ['flow 60 %, head 36 %, power 21.6 %']],
    [
      'en',
      '/speed 3450 1725 rpm 60 gpm 50 ft 1.5 kW 8 h 0.15',
      ['60 gpm becomes 30 gpm', '50 ft becomes 12.5 ft', '1.5 kW becomes 0.188 kW', '1.8 becomes 0.225'],
    ],
    ['es', '/velocidad 3450 2300 rpm', ['caudal 66,7 %, carga 44,4 %, potencia 29,6 %']],
    ['en', '/flow 2 in 6 ft/s', ['62.8 gpm']],
    ['es', '/caudal 18 psi 8 inHg 1,5 hp', ['GENÉRICA', '50,6 pies']],
    ['en', '/flow 30 psi 15 inHg 0.5 hp', ['more than a generic pump of that power gives']],
  ])('should answer in %s "%s"', (locale, line, parts) => {
    const place = after(locale, line);
    for (const part of parts) expect(said(place)).toContain(part);
    expect(place.conversation.flow).toEqual({ at: 'complaint' });
  });

  it('should understand natural words of either language', () => {
    expect(asked(after('en', 'how many gallons is my pool'))).toBe('volume-shape');
    expect(asked(after('en', 'turnover time'))).toBe('turnover-volume');
    expect(asked(after('es', 'pérdida de carga'))).toBe('headloss-size');
    expect(asked(after('es', 'leyes de afinidad'))).toBe('speed-from');
  });

  it('should ask only for what is missing, and keep amounts until a choice is made', () => {
    expect(asked(after('en', '/turnover 15000 gal'))).toBe('turnover-flow');
    const shape = after('en', '/volume 32 16 5 ft');
    expect(asked(shape)).toBe('volume-shape');
    expect(said(typed(shape, 'oval'))).toContain('Oval, 32 ft, 16 ft, 5 ft');
  });
});

describe('a calculator step by step', () => {
  it('should ask one value after another', () => {
    const steps = ['/volumen', 'riñón', '32 pies', '18', '14', '3', '8'];
    const ids = steps.map((_, at) => asked(after('es', ...steps.slice(0, at + 1))));
    expect(ids.slice(0, -1)).toEqual([
      'volume-shape',
      'volume-length',
      'volume-widest',
      'volume-narrowest',
      'volume-shallow',
      'volume-deep',
    ]);
    expect(said(after('es', ...steps))).toContain('19.000 gal EE. UU.');
  });

  it('should take a bare number as a value, never as the place of a button', () => {
    const place = after('en', '/headloss', '2', '1', '45', '1');
    expect(said(place)).toContain('2 in, 1 ft, 45 gpm');
    expect(said(place)).toContain('Fittings counted: 1');
  });

  it('should take a pressed button like a typed value', () => {
    const place = next(after('en', '/headloss'), { kind: 'answer', option: '63 mm' });
    expect(asked(place)).toBe('headloss-length');
  });

  it.each<[Locale, string]>([
    ['en', 'skip'],
    ['en', 'Skip this'],
    ['en', 'not sure'],
    ['es', 'saltar este paso'],
    ['es', 'no sé'],
  ])('should leave out in %s what is not needed: "%s"', (locale, word) => {
    const place = after(locale, '/turnover', '15000 gal', '45 gpm', word);
    expect(asked(place)).toBe('calculated-turnover');
  });

  it('should not leave out what there is no answer without', () => {
    const place = after('en', '/turnover', 'skip');
    expect(place.says.map(({ id }) => id)).toEqual(['needed', 'turnover-volume']);
    const last = after('en', '/turnover', '15000 gal', 'skip', 'skip');
    expect(last.says.map(({ id }) => id)).toEqual(['needed', 'turnover-hours']);
  });

  it('should go back one value at a time, and out at the beginning', () => {
    const flow = after('en', '/turnover', '15000 gal', '/back');
    expect(asked(flow)).toBe('turnover-volume');
    const right = after('en', '/turnover', '15000 gal', 'back', '20000 gal', '45 gpm', 'skip');
    expect(said(right)).toContain('20,000 US gal');
    expect(asked(after('en', '/turnover', 'back'))).toBe('complaint');
    expect(asked(after('es', '/volumen', 'círculo', 'atrás', 'óvalo'))).toBe('volume-length');
  });

  it('should leave by its own button', () => {
    expect(asked(after('en', '/speed', 'Leave the calculator'))).toBe('complaint');
    expect(asked(next(after('en', '/de'), { kind: 'answer', option: 'leave' }))).toBe('complaint');
  });

  it('should stop for an emergency at any value', () => {
    const place = after('en', '/turnover', 'there is smoke coming from the pump motor');
    expect(place.says.map(({ outcome }) => outcome)).toContain('emergency');
  });
});

describe('a bad value', () => {
  it.each<[Locale, readonly string[], string]>([
    ['en', ['/turnover', 'many'], 'no number'],
    ['en', ['/turnover', '45 gpm'], 'in “gpm”, and here I need one of: US gal, L, m³'],
    ['en', ['/turnover', '5 gal'], '5 US gal cannot be right here: I expect 100 US gal to 2,000,000 US gal'],
    ['en', ['/turnover -15000 gal'], 'cannot be right'],
    ['en', ['/turnover', '45 furlongs'], '“furlongs”'],
    ['en', ['/speed', 'skip', '2000 rpm'], 'here I need one of: %'],
    ['en', ['/soak', 'understood', 'understood', '60 L', '1:2'], '1:2 cannot be right'],
    ['es', ['/renovacion', '5 litros'], '5 L no puede ser aquí'],
    ['es', ['/renovacion', 'mucha'], 'ningún número'],
  ])('should get in %s, after %j, a kind word and the question with its example', (locale, texts, part) => {
    const place = after(locale, ...texts);
    expect(said(place)).toContain(part);
    expect(place.says.at(-1)?.expects).toBe('amount');
    expect(said(place)).toMatch(/For example|Por ejemplo/u);
  });

  it('should keep what was good in the same line', () => {
    const place = after('en', '/headloss 1.5 in 60 furlongs');
    expect(said(place)).toContain('furlongs');
    const left = after('en', '/turnover 15000 gal 45 gpm 8 h 99');
    expect(said(left)).toContain('I found no place for 99');
    expect(said(left)).toContain('5.56 h');
  });
});

describe('cautions of a calculator', () => {
  it.each<[Locale, string, readonly string[], string]>([
    ['en', '/de 48', ['de-dust'], '4.8 lb (2.18 kg)'],
    ['en', '/backwash 3 min 60 gpm', ['backwash-drain'], '180 US gal (681 L'],
    ['es', '/remojo 63 L 1:20', ['acid-soak', 'never-mix'], 'el agua, 60 L'],
  ])('should come in %s before the answer to "%s"', (locale, line, cautions, part) => {
    let place = after(locale, line);
    for (const caution of cautions) {
      expect(place.says.map(({ kind, id }) => [kind, id])).toEqual([['caution', caution]]);
      expect(said(place)).not.toContain(part);
      place = typed(place, locale === 'en' ? 'understood' : 'entendido');
    }
    expect(said(place)).toContain(part);
  });

  it('should degrease before acid, and put acid into water', () => {
    const words = said(after('en', '/soak 63 L', 'understood', 'understood'));
    expect(words.indexOf('First degrease')).toBeLessThan(words.indexOf('Then the acid'));
    expect(words.indexOf('first the water')).toBeLessThan(words.indexOf('pour into it the acid'));
  });

  it('should not be passed by skipping', () => {
    const place = after('en', '/soak 63 L', 'skip');
    expect(said(place)).not.toContain('acid, 3 L');
    expect(place.conversation.flow).toEqual({ at: 'complaint' });
  });
});

describe('a calculator as a detour', () => {
  function inConsult(locale: Locale): Place {
    return next(home(locale), { kind: 'answer', option: 'not-moving' });
  }

  it.each(LOCALES)('should return in %s to the open case where it was', (locale) => {
    const consult = inConsult(locale);
    expect(consult.conversation.flow.at).toBe('consult');
    const away = typed(consult, '/turnover');
    expect(away.conversation.flow).toMatchObject({ at: 'calculate', then: consult.conversation.flow });
    const back = ['15000 gal', '45 gpm', 'skip'].reduce(typed, away);
    expect(back.conversation.flow).toEqual(consult.conversation.flow);
    expect(back.pools).toEqual(consult.pools);
    expect(back.says.map(({ id }) => id)).toEqual(['calculated-turnover', consult.says.at(-1)?.id]);
  });

  it('should return from a calculator begun within another', () => {
    const consult = inConsult('en');
    const place = ['/volume', '/turnover 15000 gal 45 gpm'].reduce(typed, consult);
    expect(place.conversation.flow).toEqual(consult.conversation.flow);
  });

  it('should stay where it is after /help, which names the calculators', () => {
    const place = ['/headloss', '/help'].reduce(typed, inConsult('en'));
    expect(place.says.map(({ id }) => id)).toEqual(['help', 'headloss-size']);
    expect(said(place)).toContain('/backwash');
  });
});

describe('the table of calculators', () => {
  const amountFields = CALCULATORS.flatMap((id) =>
    TABLE[id].fields.filter((field) => !isChoice(field)).map((field) => ({ id, field })),
  );

  it('should have examples that it takes itself', () => {
    for (const { field } of amountFields) {
      if (isChoice(field)) continue;
      for (const text of [field.example, ...(field.usual ?? [])])
        expect(
          amountsIn(text).filter(({ kind }) => kind === 'amount'),
          text,
        ).toHaveLength(1);
    }
  });

  it.each(LOCALES)(
    'should take in %s every example as it is shown, and have words for all it says',
    (locale) => {
      for (const id of CALCULATORS)
        for (const choice of choicesOf(id)) {
          let place = after(locale, `/${id}`);
          while (place.conversation.flow.at === 'calculate') {
            expect(said(place)).not.toMatch(/calculators:|\{\{|undefined|NaN/u);
            place = typed(place, goodAnswer(place, choice));
            expect(place.says.map((say) => say.id)).not.toContain('bad-value');
          }
          expect(said(place)).not.toMatch(/calculators:|\{\{|undefined|NaN/u);
          expect(place.says[0]?.id).toBe(`calculated-${id}`);
        }
    },
  );
});

function choicesOf(id: (typeof CALCULATORS)[number]): readonly (string | undefined)[] {
  const choice = TABLE[id].fields.find(isChoice);
  return choice === undefined ? [undefined] : Object.keys(choice.choices);
}

/** What a willing person sends: the caution understood, the choice, or the example that the question gives. */
function goodAnswer(place: Place, choice: string | undefined): string {
  const message = messages(place).at(-1);
  const label = (id: string | undefined): string =>
    message?.options?.find((option) => option.id === id)?.label ?? '';
  if (message?.kind === 'caution') return label('understood');
  const example = /[“«](.+?)[”»]/u.exec(message?.text ?? '')?.[1];
  return example ?? label(choice);
}

describe('the state of a calculator', () => {
  it('should be plain JSON that names its fields only', () => {
    const flow: Flow = after('en', '/volume 32 16 5 ft').conversation.flow;
    expect(JSON.parse(JSON.stringify(flow))).toEqual(flow);
    expect(flow).toMatchObject({ at: 'calculate', calculator: 'volume', line: '32 16 5 ft' });
  });
});
