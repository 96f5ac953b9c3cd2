import type { Measured } from '../../dialogues/event.ts';
import { findAll, patternOf } from './pattern.ts';
import { LINKS, MENTIONS } from './words/readings.ts';
import { PAUSE } from './words-of.ts';

/** A reading named in the message, from its first token to its last. */
export interface Mention {
  quantity: Measured;
  start: number;
  end: number;
}

const PATTERNS = MENTIONS.flatMap(([quantity, texts]) =>
  texts.map((text) => ({ quantity, pattern: patternOf(text, {}) })),
);

/** "Pump 9": the pump alone names its gauge only right before a number. */
function pumpBefore(tokens: readonly string[], isNumber: (at: number) => boolean): Mention[] {
  return tokens.flatMap((token, at) =>
    (token === 'pump' || token === 'bomba') && isNumber(at + 1)
      ? [{ quantity: 'pump-vacuum' as const, start: at, end: at + 1 }]
      : [],
  );
}

/** The readings that the message names, in their order, not overlapping. `isNumber` tells which tokens are numbers. */
export function mentionsIn(tokens: readonly string[], isNumber: (at: number) => boolean): Mention[] {
  const mentions = pumpBefore(tokens, isNumber);
  for (const { quantity, pattern } of PATTERNS)
    for (const { positions } of findAll(pattern, tokens)) {
      const start = positions[0] ?? 0;
      const end = (positions.at(-1) ?? start) + 1;
      const isTaken = mentions.some((mention) => start < mention.end && end > mention.start);
      const crossesNumber = tokens
        .slice(start, end)
        .some((token, index) => isNumber(start + index) || token === PAUSE);
      if (!isTaken && !crossesNumber) mentions.push({ quantity, start, end });
    }
  return mentions.sort((one, other) => one.start - other.start);
}

/** Do only small words stand between the two places? */
export function isLinked(tokens: readonly string[], from: number, to: number): boolean {
  return tokens.slice(from, to).every((token) => token === PAUSE || LINKS.has(token));
}
