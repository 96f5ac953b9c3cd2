/** The pronunciations of a grammar's words: the fewer words the recogniser knows, the faster it starts. */
import { readFile } from 'node:fs/promises';
import { OWN_PRONUNCIATIONS } from '../english/pronunciations.ts';

export interface Dictionary {
  has(word: string): boolean;
  /** Lines of a dictionary that holds these words only. */
  linesFor(words: readonly string[]): string[];
}

/** "word(2) W ER D": a further pronunciation has its number in brackets. */
const LINE = /^([a-z']+)(?:\(\d+\))? (.+)$/u;

function pronunciationsIn(text: string): Map<string, string[]> {
  const known = new Map<string, string[]>();
  for (const line of text.split('\n')) {
    const [, word, phones] = LINE.exec(line) ?? [];
    if (word === undefined || phones === undefined) continue;
    const ways = known.get(word);
    if (ways === undefined) known.set(word, [phones]);
    else ways.push(phones);
  }
  for (const [word, ways] of Object.entries(OWN_PRONUNCIATIONS)) known.set(word, [...ways]);
  return known;
}

/** Reads a dictionary in the form of the CMU dictionary; words of the trade are added. Rejects where there is none. */
export async function readDictionary(file: string): Promise<Dictionary> {
  const known = pronunciationsIn(await readFile(file, 'utf8'));
  return {
    has: (word) => known.has(word),
    linesFor: (words) =>
      words.flatMap((word) =>
        (known.get(word) ?? []).map((phones, at) => `${word}${at === 0 ? '' : `(${at + 1})`} ${phones}`),
      ),
  };
}
