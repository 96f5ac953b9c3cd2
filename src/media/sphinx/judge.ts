/** Whether what a grammar made of a recording is to be believed. A grammar alone accepts almost anything. */
import { fit, isSilence, textOf, type Segment } from './segments.ts';

/** Lowest fit that is believed, found by trying unrelated sentences in synthetic voices (see the bench of voice). */
export const LOWEST_FIT = -16;
/** Most that the ends of the two decodes may differ, frames: beyond it the grammar has dropped the end of what was said. */
export const MOST_END_DIFFERENCE = 15;
/** Over this spread of loudness a recording is quiet around the words, decibels. */
export const QUIET_SPREAD_DB = 45;
/** Under this spread one way of decoding is not to be trusted alone, decibels. */
export const NOISY_SPREAD_DB = 22;

export interface Judged {
  text: string;
  fit: number;
}

function lastSpoken(segments: readonly Segment[]): number {
  return segments.findLast((segment) => !isSilence(segment))?.end ?? 0;
}

/** The words with their fit; undefined where there are none or where they do not end when the speech does. */
export function judged(words: readonly Segment[], phones: readonly Segment[]): Judged | undefined {
  const text = textOf(words);
  if (text === '') return undefined;
  if (Math.abs((words.at(-1)?.end ?? 0) - (phones.at(-1)?.end ?? 0)) > MOST_END_DIFFERENCE) return undefined;
  return lastSpoken(words) === 0 ? undefined : { text, fit: fit(words, phones) };
}

/** From 0 to 1, one half at the lowest fit that is believed; it grows with the fit. */
export function confidenceOf(fitted: number): number {
  return 1 / (1 + Math.exp(-(fitted - LOWEST_FIT) / 4));
}
