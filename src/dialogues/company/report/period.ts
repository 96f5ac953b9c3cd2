/** The stretches of time that a report is made for. */
import { dayStart } from '../../local-time.ts';
import type { Period } from './rows.ts';

export const SPANS = ['week', 'month', 'season'] as const;
export type Span = (typeof SPANS)[number];

/** Days that each takes, today among them. A season is a quarter of a year. */
const DAYS: Readonly<Record<Span, number>> = { week: 7, month: 30, season: 91 };

/** Words for a span, as somebody types them behind the command. */
const WORDS: Readonly<Record<string, Span>> = {
  week: 'week',
  semana: 'week',
  month: 'month',
  mes: 'month',
  season: 'season',
  temporada: 'season',
};

/** The span that a word names. */
export function spanNamed(word: string): Span | undefined {
  const said = word.trim().toLowerCase();
  return Object.hasOwn(WORDS, said) ? WORDS[said] : undefined;
}

/** Whole days of a zone up to now. */
export function periodOf(span: Span, now: number, zone: string): Period {
  return { from: dayStart(now, zone, 1 - DAYS[span]), to: now + 1 };
}
