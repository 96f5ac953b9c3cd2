/** Conversations in which things are heard: what is written down was read back and confirmed, whatever comes. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Event, SpokenReading, Understood } from '../../src/dialogues/event.ts';
import type { Say } from '../../src/dialogues/say.ts';
import { PA_PER_PSI } from '../../src/calc/units.ts';
import { rendered } from '../../src/language/render.ts';
import { PLAIN } from './plain-pool.ts';
import { command, hasNoDeadEnd, wordsOfAnyTimeWork } from './walk.ts';
import { atThePool, next, open } from './walker.ts';
import type { Place } from './walker.ts';

const psi = (value: number): SpokenReading => ({ quantity: 'filter-pressure', value, unit: 'psi' });
const inches = (value: number): SpokenReading => ({ quantity: 'pump-vacuum', value, unit: 'inHg' });
const readings = (...all: SpokenReading[]): Understood => ({ kind: 'readings', readings: all });
const answer = (option: string): Understood => ({ kind: 'answer', option });
const heard = (meant: Understood, others: Understood[] = [], isSure = true): Event => ({
  kind: 'heard',
  meant,
  others,
  isSure,
});

const atHome = (): Place => atThePool('technician', PLAIN);
const inCase = (): Place => next(atHome(), answer('not-moving'));
const after = (place: Place, ...events: Event[]): Place => events.reduce(next, place);
const textOf = (place: Place): string => rendered(place.says.at(-1)!, 'en').text;
const valuesPsi = ({ pools }: Place): number[] =>
  (pools[0]?.readings ?? []).map(({ value }) => Math.round(value / PA_PER_PSI));

describe.each([
  ['where trouble is asked for', atHome],
  ['in a case', inCase],
])('a reading heard %s', (_, start) => {
  it('should be read back in words that differ, and kept with a yes', () => {
    const asked = after(start(), heard(readings(psi(16))));
    expect(textOf(asked)).toBe('I heard: filter pressure one six, 16 psi. Is that right?');
    expect(asked.pools[0]?.readings).toEqual([]);
    expect(valuesPsi(after(asked, heard(answer('yes'))))).toEqual([16]);
  });

  it('should be replaced by the next likeliest with a no', () => {
    const asked = after(start(), heard(readings(psi(60)), [readings(psi(16))]), heard(answer('no')));
    expect(textOf(asked)).toContain('one six, 16 psi');
    const gone = after(asked, answer('no'));
    expect(gone.says[0]?.id).toBe('not-noted');
    expect(gone.conversation.flow.at).toBe(start().conversation.flow.at);
    expect(gone.pools[0]?.readings).toEqual([]);
  });

  it('should be read back once more where it is corrected by voice, and not where it is typed', () => {
    const asked = after(start(), heard(readings(psi(60))));
    const again = after(asked, heard(readings(psi(14))));
    expect(textOf(again)).toContain('one four, 14 psi');
    expect(again.pools[0]?.readings).toEqual([]);
    expect(valuesPsi(after(again, heard(answer('yes'), [], false)))).toEqual([14]);
    expect(valuesPsi(after(asked, readings(psi(14))))).toEqual([14]);
  });

  it('should be dropped by back, stop and skip, and kept open by help and repeat', () => {
    const asked = after(start(), heard(readings(psi(16), inches(9))));
    for (const id of ['back', 'skip', 'stop'] as const) {
      const left = after(asked, command(id));
      expect(left.conversation.flow.at).not.toBe('confirm');
      expect(left.pools[0]?.readings).toEqual([]);
    }
    for (const id of ['help', 'repeat'] as const)
      expect(after(asked, heard(command(id))).conversation.flow.at).toBe('confirm');
    expect(after(asked, heard(readings(psi(17))), command('repeat')).says.at(-1)?.id).toBe('read-back');
  });

  it('should give way to an emergency at once, however badly that was heard', () => {
    const danger: Understood = { kind: 'emergency', id: 'electric-shock' };
    const stopped = after(start(), heard(readings(psi(16))), heard(danger, [], false));
    expect(stopped.says.map(({ outcome }) => outcome)).toContain('emergency');
    expect(stopped.pools[0]?.readings).toEqual([]);
  });
});

describe('an answer heard', () => {
  const asked = (): { place: Place; say: Say } => {
    let place = inCase();
    for (let turn = 0; turn < 5 && open(place)?.kind !== 'check'; turn += 1)
      place = after(place, answer(open(place)?.options?.[0]?.id ?? ''));
    return { place, say: open(place)! };
  };

  it('should count at once where it was heard well', () => {
    const { place, say } = asked();
    const told = after(place, heard(answer(say.options![0]!.id)));
    expect(told.pools[0]?.cases[0]?.events.at(-1)).toMatchObject({ check: say.id });
  });

  it('should be read back by its label where it was not', () => {
    const { place, say } = asked();
    const [first, second] = say.options!;
    const back = after(place, heard(answer(first!.id), [answer(second!.id)], false));
    expect(textOf(back)).toContain(rendered({ ...say, text: [first!.label] }, 'en').text);
    expect(back.pools[0]?.cases[0]?.events).toEqual(place.pools[0]?.cases[0]?.events);
    const taken = after(back, heard(answer('no'), [], false), answer('yes'));
    expect(taken.pools[0]?.cases[0]?.events.at(-1)).toMatchObject({ check: say.id, outcome: second!.id });
  });

  it('should always be read back before everything is erased', () => {
    const sure = after(atHome(), command('erase'), heard(answer('yes')));
    expect(sure.conversation.flow.at).toBe('confirm');
    expect(sure.pools).toHaveLength(1);
    expect(after(sure, answer('yes')).pools).toEqual([]);
  });

  it('should always be read back where it is a number that was impossible at first', () => {
    const doubt = after(atHome(), readings(psi(220)));
    const [slip] = open(doubt)!.options!;
    const chosen = after(doubt, heard(answer(slip!.id)));
    expect(chosen.conversation.flow.at).toBe('confirm');
    expect(chosen.pools[0]?.readings).toEqual([]);
  });
});

describe('words heard where any words are the answer', () => {
  const naming = (): Place => after(atHome(), command('pools'), answer('new-pool'));
  const name = (text: string): Understood => ({ kind: 'unclear', text });

  it('should be read back, and typed ones count as they stand', () => {
    const asked = after(naming(), heard(name('Back Garden')));
    expect(textOf(asked)).toBe('I heard: “Back Garden”. Is that right?');
    expect(after(asked, answer('yes')).pools.at(-1)?.name).toBe('Back Garden');
    expect(after(asked, name('Front Yard')).pools.at(-1)?.name).toBe('Front Yard');
    expect(after(asked, heard(name('Front Yard'))).pools).toHaveLength(1);
  });

  it('should be read back where a figure is asked for', () => {
    const figure = after(atHome(), command('pool'), answer('volume'), heard(name('15000 gallons')));
    expect(figure.conversation.flow.at).toBe('confirm');
    expect(figure.pools[0]?.figures).toEqual({});
    expect(after(figure, answer('yes')).pools[0]?.figures.volume).toBeCloseTo(56.8, 1);
  });
});

describe('several things in one note', () => {
  const told: Understood = {
    kind: 'findings',
    readings: [psi(16)],
    findings: [{ check: 'skimmer-look', outcome: 'basket-full' }],
  };

  it('should all be said back, and all be kept with one yes', () => {
    const asked = after(inCase(), heard(told));
    expect(textOf(asked)).toBe(
      'I heard: filter pressure one six, 16 psi, the skimmer basket is full. Is that right?',
    );
    const done = after(asked, heard(answer('yes')));
    expect(valuesPsi(done)).toEqual([16]);
    expect(done.pools[0]?.cases[0]?.events).toContainEqual(
      expect.objectContaining({ kind: 'answer', check: 'skimmer-look', outcome: 'basket-full' }),
    );
    expect(open(done)).toBeDefined();
  });

  it('should leave nothing that was acknowledged before to be relied on', () => {
    const events = after(inCase(), told).pools[0]?.cases[0]?.events ?? [];
    expect(events.at(-1)).toMatchObject({ kind: 'pad-unknown' });
  });
});

describe('walks by voice', () => {
  const word = fc.constantFrom(
    'back',
    'help',
    'why',
    'skip',
    'unsure',
    'repeat',
    'readings',
    'pool',
    'pools',
  );
  const step = fc.record({
    kind: fc.constantFrom('option', 'option', 'yes', 'no', 'reading', 'two', 'word', 'words'),
    which: fc.nat(20),
    value: fc.integer({ min: 1, max: 45 }),
    word,
    isTyped: fc.nat(4).map((n) => n === 0),
    isSure: fc.boolean(),
  });

  it(
    'should write down nothing heard without a yes, and never come to a dead end',
    { timeout: 120_000 },
    () => {
      let confirmed = 0;
      fc.assert(
        fc.property(fc.array(step, { maxLength: 14 }), fc.boolean(), (steps, isAtHome) => {
          let place = isAtHome ? atHome() : inCase();
          steps.forEach(({ kind, which, value, word: id, isTyped, isSure }, index) => {
            const options = open(place)?.options ?? [];
            const option = options[which % Math.max(1, options.length)]?.id ?? 'skip';
            const meant: Record<typeof kind, Understood> = {
              option: answer(option),
              yes: answer('yes'),
              no: answer('no'),
              reading: readings(psi(value)),
              two: readings(psi(value), inches(value / 2)),
              word: command(id),
              words: { kind: 'unclear', text: `thing ${value}` },
            };
            const before = place;
            const event = isTyped ? meant[kind] : heard(meant[kind], [readings(psi(value + 1))], isSure);
            place = next(place, event);
            hasNoDeadEnd(place);
            if (index % 5 === 4) wordsOfAnyTimeWork(place);
            const count = ({ pools }: Place): number =>
              pools.reduce((sum, pool) => sum + pool.readings.length, 0);
            const isWritten = count(place) > count(before);
            const isYes = kind === 'yes' || (kind === 'option' && option === 'yes');
            if (isWritten && !isTyped) {
              expect(before.conversation.flow.at).toBe('confirm');
              expect(isYes).toBe(true);
              confirmed += 1;
            }
          });
        }),
        { numRuns: 400, seed: 20_260_404 },
      );
      console.log(`400 walks by voice: ${confirmed} times something heard was confirmed and written down`);
      expect(confirmed).toBeGreaterThan(20);
    },
  );
});
