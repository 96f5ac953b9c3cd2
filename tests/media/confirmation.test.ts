/** What was heard is read back and kept only with a yes. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { QUANTITIES } from '../../src/knowledge/ids.ts';
import { translate } from '../../src/language/texts.ts';
import {
  afterReply,
  strangeness,
  toConfirm,
  type Reply,
  type Unconfirmed,
} from '../../src/media/confirmation.ts';
import { digitsApart, numberInWords } from '../../src/media/number-words.ts';
import { readBack, type HeardReading } from '../../src/media/read-back.ts';

const psi = (value: number): HeardReading => ({ quantity: 'filter-pressure', value, unit: 'psi' });
const inches = (value: number): HeardReading => ({ quantity: 'pump-vacuum', value, unit: 'inHg' });
/** 15 psi. */
const CLEAN = { 'filter-pressure': 15 * 6894.757 };

describe('reading back', () => {
  it('should say digits one by one, then the number', () => {
    expect(readBack([psi(16)], 'en', translate)).toBe(
      'I heard: Filter pressure, one six, sixteen P S I. Is that right?',
    );
    expect(readBack([psi(60), inches(9)], 'en', translate)).toBe(
      'I heard: Filter pressure, six zero, sixty P S I. Pump vacuum, nine inches of mercury. Is that right?',
    );
  });

  it('should do so in Spanish', () => {
    expect(readBack([psi(22.5)], 'es', translate)).toBe(
      'Entendí: Presión del filtro, dos dos punto cinco, veintidós punto cinco libras. ¿Está bien?',
    );
  });

  it('should tell then from now, and a moving needle', () => {
    const said = readBack(
      [{ ...psi(13), earlier: true }, psi(24), { ...inches(8), unsteady: true }],
      'en',
      translate,
    );
    expect(said).toContain('Filter pressure before, one three, thirteen P S I.');
    expect(said).toContain('Pump vacuum moving around eight inches of mercury.');
  });

  it('should never say two different numbers alike', () => {
    for (const language of ['en', 'es'] as const) {
      const said = Array.from({ length: 1000 }, (_, value) => numberInWords(value / 10, language));
      expect(new Set(said).size).toBe(1000);
      const apart = Array.from({ length: 90 }, (_, value) => digitsApart(value + 10, language));
      expect(new Set(apart).size).toBe(90);
    }
  });

  it.each([
    [0, 'zero', 'cero'],
    [110, 'one hundred and ten', 'ciento diez'],
    [100, 'one hundred', 'cien'],
    [45, 'forty five', 'cuarenta y cinco'],
    [1.25, 'one point two five', 'uno punto dos cinco'],
    [-3, 'minus three', 'menos tres'],
    [200, 'two hundred', 'doscientos'],
  ])('should say %d as people do', (value, english, spanish) => {
    expect([numberInWords(value, 'en'), numberInWords(value, 'es')]).toEqual([english, spanish]);
  });
});

describe('confirming', () => {
  it('should record only what was read back and got a yes', () => {
    const heard = toConfirm([psi(16)], [], {});
    expect(afterReply(heard, { kind: 'yes' })).toEqual({ do: 'record', readings: [psi(16)] });
  });

  it('should offer the likelier alternative next, and ask again after the last', () => {
    const heard = toConfirm([psi(60)], [[psi(50)], [psi(16)], [psi(60)]], CLEAN);
    expect(heard.others).toEqual([[psi(16)], [psi(50)]]);
    const second = afterReply(heard, { kind: 'no' });
    expect(second).toEqual({ do: 'read-back', unconfirmed: { readings: [psi(16)], others: [[psi(50)]] } });
    expect(afterReply({ readings: [psi(50)], others: [] }, { kind: 'no' })).toEqual({ do: 'ask-again' });
  });

  it('should replace a value that is corrected by voice, keep the others, and read back again', () => {
    const heard = toConfirm([psi(60), inches(9)], [], {});
    expect(afterReply(heard, { kind: 'readings', readings: [psi(16)] })).toEqual({
      do: 'read-back',
      unconfirmed: { readings: [inches(9), psi(16)], others: [] },
    });
  });

  it('should take a typed correction as it stands, but not what else was heard', () => {
    const typed: Reply = { kind: 'readings', readings: [psi(16)], typed: true };
    expect(afterReply(toConfirm([psi(60)], [], {}), typed)).toEqual({ do: 'record', readings: [psi(16)] });
    expect(afterReply(toConfirm([psi(60), inches(9)], [], {}), typed).do).toBe('read-back');
  });

  it('should find a reading stranger the farther it is from the clean one', () => {
    expect(strangeness([psi(15)], CLEAN)).toBeCloseTo(0);
    expect(strangeness([psi(30)], CLEAN)).toBeCloseTo(Math.log(2));
    expect(strangeness([psi(0)], CLEAN)).toBeGreaterThan(strangeness([psi(60)], CLEAN));
    expect(strangeness([psi(60)], {})).toBe(0);
  });

  it('should never record a heard value that was not read back just before its yes', () => {
    const reading = fc.record({
      quantity: fc.constantFrom(...QUANTITIES),
      value: fc.integer({ min: 0, max: 60 }),
      unit: fc.constant('psi' as const),
    });
    const reply: fc.Arbitrary<Reply> = fc.oneof(
      fc.constant<Reply>({ kind: 'yes' }),
      fc.constant<Reply>({ kind: 'no' }),
      fc.record({ kind: fc.constant('readings' as const), readings: fc.array(reading, { minLength: 1 }) }),
    );
    const heard = fc.array(reading, { minLength: 1 });
    fc.assert(
      fc.property(heard, fc.array(heard), fc.array(reply), (first, alternatives, replies) => {
        let state: Unconfirmed = toConfirm(first, alternatives, CLEAN);
        for (const next of replies) {
          const came = afterReply(state, next);
          if (came.do === 'record') {
            expect(next.kind).toBe('yes');
            expect(came.readings).toEqual(state.readings);
          }
          if (came.do !== 'read-back') return;
          state = JSON.parse(JSON.stringify(came.unconfirmed)) as Unconfirmed;
        }
      }),
    );
  });
});
