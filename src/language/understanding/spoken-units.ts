import type { SpokenReading } from '../../dialogues/event.ts';
import { UNIT_WORDS, type UnitWords } from './words/units.ts';

export interface UnitFound {
  /** Undefined: minutes, gallons and other things that are no reading. */
  unit?: SpokenReading['unit'];
  perSaid: number;
  isLength: boolean;
  said: string;
  length: number;
}

interface Phrase {
  words: string[];
  entry: UnitWords;
}

const PHRASES: ReadonlyMap<string, readonly Phrase[]> = byFirstWord();

function byFirstWord(): Map<string, Phrase[]> {
  const phrases = new Map<string, Phrase[]>();
  for (const entry of UNIT_WORDS)
    for (const text of entry.says) {
      const words = text.split(' ');
      const first = words[0] ?? '';
      phrases.set(first, [...(phrases.get(first) ?? []), { words, entry }]);
    }
  for (const list of phrases.values()) list.sort((one, other) => other.words.length - one.words.length);
  return phrases;
}

/** The unit whose name begins at a token, the longest name first. */
export function unitAt(tokens: readonly string[], at: number): UnitFound | undefined {
  const candidates = PHRASES.get(tokens[at] ?? '') ?? [];
  const found = candidates.find(({ words }) => words.every((word, index) => tokens[at + index] === word));
  if (found === undefined) return undefined;
  const { entry, words } = found;
  return {
    ...(entry.unit === undefined ? {} : { unit: entry.unit }),
    perSaid: entry.perSaid ?? 1,
    isLength: entry.isLength ?? false,
    said: words.join(' '),
    length: words.length,
  };
}
