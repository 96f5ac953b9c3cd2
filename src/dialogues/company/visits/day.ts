/** The days of a company, by the clock of its place. */
import type { Company } from '../company.ts';
import { localTime } from '../../local-time.ts';

/** Days that can be chosen for a visit, today among them. */
export const DAYS_AHEAD = 7;

function written(year: number, month: number, day: number): string {
  return new Date(Date.UTC(year, month - 1, day)).toISOString().slice(0, 10);
}

/** The day it is at the company, so many days on, as 2030-06-01. */
export function dayAt(now: number, { timeZone }: Pick<Company, 'timeZone'>, daysOn: number): string {
  const { year, month, day } = localTime(now, timeZone);
  return written(year, month, day + daysOn);
}

/** The day it is at the company, as 2030-06-01. */
export function today(now: number, company: Pick<Company, 'timeZone'>): string {
  return dayAt(now, company, 0);
}
