/** Whether what a grammar made of a recording is to be believed. A grammar alone accepts almost anything. */
import { fit, textOf, type Fit, type Segment } from './segments.ts';

/** Most that the ends of the two decodes may differ, frames: beyond it the grammar has dropped the end of what was said. */
const MOST_END_DIFFERENCE = 15;
/** From this spread of loudness on, decibels, a recording is quiet: noise is taken out of the others. */
export const QUIET_SPREAD_DB = 45;
/** Under this spread of loudness, decibels, one way of decoding is not trusted alone. */
export const NOISY_SPREAD_DB = 19;
/** Under this one the person is told of the noise and offered buttons, decibels. */
export const LOUD_SPREAD_DB = 22;

export interface Judged {
  text: string;
  fit: Fit;
}

/** The words with their fit; undefined where there are none or where they do not end when the sound does. */
export function judged(words: readonly Segment[], phones: readonly Segment[]): Judged | undefined {
  const text = textOf(words);
  if (text === '') return undefined;
  const difference = Math.abs((words.at(-1)?.end ?? 0) - (phones.at(-1)?.end ?? 0));
  return difference > MOST_END_DIFFERENCE ? undefined : { text, fit: fit(words, phones) };
}

/**
 * Lowest fits that are believed, by the spread of loudness (decibels) from which they hold. Found with unrelated
 * sentences in synthetic voices, on a sample of the half for tuning: words that were said fit down to -26 once noise is
 * taken out, unrelated ones up to -29.
 */
const LOWEST: readonly (readonly [spreadDb: number, lowest: Fit])[] = [
  [QUIET_SPREAD_DB, { whole: -34, worst: -38 }],
  [-Infinity, { whole: -27, worst: -37 }],
];

function lowestAt(spreadDb: number): Fit {
  return LOWEST.find(([from]) => spreadDb >= from)?.[1] ?? { whole: 0, worst: 0 };
}

/** Whether words with this fit are to be believed, in a recording with this spread of loudness (decibels). */
export function isBelieved({ whole, worst }: Fit, spreadDb: number): boolean {
  const lowest = lowestAt(spreadDb);
  return whole >= lowest.whole && worst >= lowest.worst;
}

/** From 0 to 1, one half at the lowest fit that is believed; it grows with the fit. */
export function confidenceOf({ whole }: Fit, spreadDb: number): number {
  return 1 / (1 + Math.exp(-(whole - lowestAt(spreadDb).whole) / 4));
}
