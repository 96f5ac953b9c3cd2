/** What was heard is read back and counts only with a yes. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { QUANTITIES } from '../../src/knowledge/ids.ts';
import {
  afterReply,
  strangeness,
  toConfirm,
  type Confirmable,
  type Reply,
  type Unconfirmed,
} from '../../src/dialogues/confirmation.ts';
import type { SpokenReading } from '../../src/dialogues/event.ts';

const psi = (value: number): SpokenReading => ({ quantity: 'filter-pressure', value, unit: 'psi' });
const inches = (value: number): SpokenReading => ({ quantity: 'pump-vacuum', value, unit: 'inHg' });
const all = (...readings: SpokenReading[]): Confirmable => ({ kind: 'readings', readings });
/** A reply with other values. */
const other = (typed: boolean, ...readings: SpokenReading[]): Reply => ({
  kind: 'readings',
  readings,
  typed,
});
/** 15 psi. */
const CLEAN = { 'filter-pressure': 15 * 6894.757 };

describe('confirming', () => {
  it('should take only what was read back and got a yes', () => {
    const heard = toConfirm(all(psi(16)), [], {});
    expect(afterReply(heard, { kind: 'yes' })).toEqual({ do: 'take', meant: all(psi(16)) });
  });

  it('should offer the likelier alternative next, and ask again after the last', () => {
    const heard = toConfirm(all(psi(60)), [all(psi(50)), all(psi(16)), all(psi(60))], CLEAN);
    expect(heard.others).toEqual([all(psi(16)), all(psi(50))]);
    const second = afterReply(heard, { kind: 'no' });
    expect(second).toEqual({
      do: 'read-back',
      unconfirmed: { meant: all(psi(16)), others: [all(psi(50))] },
    });
    expect(afterReply({ meant: all(psi(50)), others: [] }, { kind: 'no' })).toEqual({ do: 'ask-again' });
  });

  it('should replace a value that is corrected by voice, keep the others, and read back again', () => {
    const heard = toConfirm(all(psi(60), inches(9)), [], {});
    expect(afterReply(heard, other(false, psi(16)))).toEqual({
      do: 'read-back',
      unconfirmed: { meant: all(psi(16), inches(9)), others: [] },
    });
  });

  it('should take a typed correction as it stands, but not what else was heard', () => {
    const typed = other(true, psi(16));
    expect(afterReply(toConfirm(all(psi(60)), [], {}), typed)).toEqual({ do: 'take', meant: all(psi(16)) });
    expect(afterReply(toConfirm(all(psi(60), inches(9)), [], {}), typed).do).toBe('read-back');
  });

  it('should keep the findings that were heard beside a value that is corrected', () => {
    const findings = [{ check: 'skimmer-look' as const, outcome: 'basket-full' }];
    const heard = toConfirm({ kind: 'findings', readings: [psi(60)], findings }, [], {});
    expect(afterReply(heard, other(true, psi(16)))).toEqual({
      do: 'read-back',
      unconfirmed: { meant: { kind: 'findings', readings: [psi(16)], findings }, others: [] },
    });
  });

  it('should find a reading stranger the farther it is from the clean one', () => {
    expect(strangeness(all(psi(15)), CLEAN)).toBeCloseTo(0);
    expect(strangeness(all(psi(30)), CLEAN)).toBeCloseTo(Math.log(2));
    expect(strangeness(all(psi(0)), CLEAN)).toBeGreaterThan(strangeness(all(psi(60)), CLEAN));
    expect(strangeness(all(psi(60)), {})).toBe(0);
  });

  it('should never take a heard value that was not read back just before its yes', () => {
    const reading = fc.record({
      quantity: fc.constantFrom(...QUANTITIES),
      value: fc.integer({ min: 0, max: 60 }),
      unit: fc.constant('psi' as const),
    });
    const reply: fc.Arbitrary<Reply> = fc.oneof(
      fc.constant<Reply>({ kind: 'yes' }),
      fc.constant<Reply>({ kind: 'no' }),
      fc.record({
        kind: fc.constant('readings' as const),
        typed: fc.constant(false),
        readings: fc.array(reading, { minLength: 1 }),
      }),
    );
    const heard = fc.array(reading, { minLength: 1 }).map((readings) => all(...readings));
    fc.assert(
      fc.property(heard, fc.array(heard), fc.array(reply), (first, alternatives, replies) => {
        let state: Unconfirmed = toConfirm(first, alternatives, CLEAN);
        for (const next of replies) {
          const came = afterReply(state, next);
          if (came.do === 'take') {
            expect(next.kind).toBe('yes');
            expect(came.meant).toEqual(state.meant);
          }
          if (came.do !== 'read-back') return;
          state = JSON.parse(JSON.stringify(came.unconfirmed)) as Unconfirmed;
        }
      }),
    );
  });
});
