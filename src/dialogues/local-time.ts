/** The clock of the place where a person is. Zones and their daylight saving are those of the IANA database in Node. */
import { DAY_MS, HOUR_MS } from '../calc/units.ts';

/** Nothing is sent of its own accord from nine in the evening to eight in the morning. */
const NIGHT_FROM = 21;
const MORNING = 8;

/** How long after the time of day at which somebody last wrote they are taken to be up, where no zone is known. */
const UP_FOR_MS = 3 * HOUR_MS;

/** What is known of when a person is up. */
export type Clock =
  | { zone: string }
  /** No zone is known, only when they last wrote, milliseconds since 1970. */
  | { lastHeardAt: number };

export interface LocalTime {
  year: number;
  /** 1 to 12. */
  month: number;
  day: number;
  hour: number;
  minute: number;
}

const formats = new Map<string, Intl.DateTimeFormat>();

function formatOf(timeZone: string): Intl.DateTimeFormat {
  const known = formats.get(timeZone);
  if (known !== undefined) return known;
  const part = 'numeric';
  const made = new Intl.DateTimeFormat('en', {
    timeZone,
    calendar: 'gregory',
    numberingSystem: 'latn',
    hourCycle: 'h23',
    year: part,
    month: part,
    day: part,
    hour: part,
    minute: part,
  });
  formats.set(timeZone, made);
  return made;
}

/** Date and time of day in a zone at a moment. Throws RangeError where there is no such zone. */
export function localTime(at: number, zone: string): LocalTime {
  const parts = formatOf(zone).formatToParts(at);
  const of = (type: Intl.DateTimeFormatPartTypes): number =>
    Number(parts.find((part) => part.type === type)?.value);
  return { year: of('year'), month: of('month'), day: of('day'), hour: of('hour'), minute: of('minute') };
}

/** How far a zone's clocks are ahead of UTC at a moment, milliseconds. */
function aheadMs(at: number, zone: string): number {
  const { year, month, day, hour, minute } = localTime(at, zone);
  return Date.UTC(year, month - 1, day, hour, minute) - Math.floor(at / 60_000) * 60_000;
}

/**
 * The moment at which a zone's clocks show a full hour of a day; `day` may run over the month's end. An hour that
 * daylight saving leaves out is the one after it; of one that comes twice it is one of the two.
 */
export function momentOf(local: Pick<LocalTime, 'year' | 'month' | 'day' | 'hour'>, zone: string): number {
  const asUtc = Date.UTC(local.year, local.month - 1, local.day, local.hour);
  const near = asUtc - aheadMs(asUtc, zone);
  return asUtc - aheadMs(near, zone);
}

/** The first moment of the day, so many days on, of a zone. */
export function dayStart(at: number, zone: string, daysOn = 0): number {
  const { year, month, day } = localTime(at, zone);
  return momentOf({ year, month, day: day + daysOn, hour: 0 }, zone);
}

function isNight({ hour }: LocalTime): boolean {
  return hour >= NIGHT_FROM || hour < MORNING;
}

function morningAfter(at: number, zone: string): number {
  const { year, month, day, hour } = localTime(at, zone);
  return momentOf({ year, month, day: hour < MORNING ? day : day + 1, hour: MORNING }, zone);
}

/** From when on a person may be written to unasked: `at` itself by day, else the morning after. */
export function wakingTime(at: number, clock: Clock): number {
  if ('zone' in clock) return isNight(localTime(at, clock.zone)) ? morningAfter(at, clock.zone) : at;
  const since = (((at - clock.lastHeardAt) % DAY_MS) + DAY_MS) % DAY_MS;
  return since < UP_FOR_MS ? at : at - since + DAY_MS;
}
