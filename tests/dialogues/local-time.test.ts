/**
 * When somebody may be written to. Offsets and dates of daylight saving are those of the IANA time zone database
 * (www.iana.org/time-zones): from the last Sunday of March to that of October in the European Union (Directive
 * 2000/84/EC), from the second Sunday of March to the first of November in the United States (Energy Policy Act of
 * 2005, section 110), none in Arizona, and half an hour on Lord Howe Island.
 */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { dayStart, localTime, momentOf, wakingTime } from '../../src/dialogues/local-time.ts';
import { zoneNamed } from '../../src/dialogues/zone.ts';

const utc = (text: string): number => Date.parse(`${text}Z`);
const waking = (at: string, zone: string): string =>
  new Date(wakingTime(utc(at), { zone })).toISOString().slice(0, 16);

describe('the night', () => {
  it.each([
    ['Europe/Madrid', '2030-06-01T18:59', '2030-06-01T18:59'], // 20:59, summer time is UTC+2
    ['Europe/Madrid', '2030-06-01T19:00', '2030-06-02T06:00'], // 21:00 → 08:00
    ['Europe/Madrid', '2030-06-02T05:59', '2030-06-02T06:00'], // 07:59
    ['Europe/Madrid', '2030-06-02T06:00', '2030-06-02T06:00'],
    ['Europe/Madrid', '2030-01-15T19:30', '2030-01-15T19:30'], // 20:30, winter time is UTC+1
    ['America/Phoenix', '2030-07-01T04:30', '2030-07-01T15:00'], // 21:30 the day before, UTC−7 all year
    ['America/New_York', '2030-01-01T12:59', '2030-01-01T13:00'], // 07:59 on New Year's Day
    ['Asia/Kolkata', '2030-05-05T15:30', '2030-05-06T02:30'], // 21:00, UTC+5:30
    ['Pacific/Auckland', '2030-01-31T09:00', '2030-01-31T19:00'], // 22:00 on 31 January, UTC+13; 08:00 on 1 February
  ])('in %s at %s UTC should last until %s', (zone, at, until) => {
    expect(waking(at, zone)).toBe(until);
  });

  it.each([
    // Clocks go forward at 01:00 UTC on 31 March 2030: the night is an hour shorter.
    ['Europe/Madrid', '2030-03-30T20:30', '2030-03-31T06:00'],
    // Clocks go back at 01:00 UTC on 27 October 2030: the night is an hour longer.
    ['Europe/Madrid', '2030-10-26T19:30', '2030-10-27T07:00'],
    // Forward at 02:00 on 10 March 2030, back at 02:00 on 3 November 2030.
    ['America/New_York', '2030-03-10T02:30', '2030-03-10T12:00'],
    ['America/New_York', '2030-11-03T01:30', '2030-11-03T13:00'],
    ['Australia/Lord_Howe', '2030-10-05T12:00', '2030-10-05T21:00'],
  ])('in %s when the clocks change, from %s UTC, should last until %s', (zone, at, until) => {
    expect(waking(at, zone)).toBe(until);
  });

  it('should never hold anybody by night, and never make anybody wait by day or past the next morning', () => {
    const zones = fc.constantFrom(
      'Europe/Madrid',
      'America/Phoenix',
      'America/St_Johns',
      'Australia/Lord_Howe',
    );
    const moments = fc.integer({ min: utc('2029-01-01T00:00'), max: utc('2032-01-01T00:00') });
    fc.assert(
      fc.property(zones, moments, (zone, at) => {
        const until = wakingTime(at, { zone });
        const { hour } = localTime(until, zone);
        expect(hour >= 8 && hour < 21).toBe(true);
        expect(until - at).toBeLessThanOrEqual(12 * 3_600_000);
        if (until > at) expect(localTime(at, zone).hour >= 21 || localTime(at, zone).hour < 8).toBe(true);
      }),
    );
  });

  it('should be taken to be over at the time of day at which somebody of no known zone last wrote', () => {
    const clock = { lastHeardAt: utc('2030-06-01T17:00') };
    expect(wakingTime(utc('2030-06-03T18:30'), clock)).toBe(utc('2030-06-03T18:30'));
    expect(wakingTime(utc('2030-06-03T20:30'), clock)).toBe(utc('2030-06-04T17:00'));
    expect(wakingTime(utc('2030-06-03T09:00'), clock)).toBe(utc('2030-06-03T17:00'));
  });
});

describe('a day of a zone', () => {
  it('should begin at its own midnight, also where that day has 23 or 25 hours', () => {
    const start = dayStart(utc('2030-03-31T12:00'), 'Europe/Madrid');
    const next = dayStart(utc('2030-03-31T12:00'), 'Europe/Madrid', 1);
    expect([start, next - start]).toEqual([utc('2030-03-30T23:00'), 23 * 3_600_000]);
    const autumn = utc('2030-10-27T12:00');
    expect(dayStart(autumn, 'Europe/Madrid', 1) - dayStart(autumn, 'Europe/Madrid')).toBe(25 * 3_600_000);
  });

  it('should run over the end of a month', () => {
    expect(momentOf({ year: 2030, month: 1, day: 32, hour: 8 }, 'UTC')).toBe(utc('2030-02-01T08:00'));
  });
});

describe('a time zone', () => {
  it.each([
    ['Europe/Madrid', 'Europe/Madrid'],
    ['madrid', 'Europe/Madrid'],
    ['  Bogotá ', 'America/Bogota'],
    ['mexico city', 'America/Mexico_City'],
    ['UTC', 'UTC'],
  ])('called "%s" should be %s', (said, zone) => {
    expect(zoneNamed(said)).toBe(zone);
  });

  it.each(['', 'my garden', '8', 'Europe/Nowhere'])('should not be found in "%s"', (said) => {
    expect(zoneNamed(said)).toBeUndefined();
  });
});
