import { couldMean } from './spelling.ts';
import { PAUSE, STOP } from './words-of.ts';

/**
 * Phrases are written as short patterns, read from left to right:
 *
 * - `word` the word, misspelt a little or not; `word!` exactly so; `word*` any word that begins so
 * - `a|b` either; `@list` any word of a named list; `a|b?` may be left out
 * - `~3` up to three other words
 * - `^` at the beginning of the text, `$` at its end
 */
export type WordLists = Readonly<Record<string, string>>;

interface Choice {
  kind: 'choice';
  /** Words in any spelling near enough, and words that must be spelt so. */
  near: ReadonlySet<string>;
  exact: ReadonlySet<string>;
  beginnings: readonly string[];
  optional: boolean;
}
type Part = Choice | { kind: 'gap'; most: number } | { kind: 'start' } | { kind: 'end' };
export interface Pattern {
  text: string;
  parts: readonly Part[];
}

/** Where a pattern was found: the positions of the tokens that it names. Gaps are not among them. */
export interface Found {
  positions: readonly number[];
}

function alternatives(text: string, lists: WordLists): string[] {
  return text.split('|').flatMap((word) => {
    if (!word.startsWith('@')) return [word];
    const list = lists[word.slice(1)];
    if (list === undefined) throw new Error(`No word list named ${word}`);
    return alternatives(list.trim().split(/\s+/u).join('|'), lists);
  });
}

function partOf(text: string, lists: WordLists): Part {
  if (text === '^') return { kind: 'start' };
  if (text === '$') return { kind: 'end' };
  if (text.startsWith('~')) return { kind: 'gap', most: Number(text.slice(1)) };
  const optional = text.endsWith('?');
  const words = alternatives(optional ? text.slice(0, -1) : text, lists);
  const choice: Choice = {
    kind: 'choice',
    near: new Set(words.filter((word) => !/[!*]$/u.test(word))),
    exact: new Set(words.filter((word) => word.endsWith('!')).map((word) => word.slice(0, -1))),
    beginnings: words.filter((word) => word.endsWith('*')).map((word) => word.slice(0, -1)),
    optional,
  };
  learn(choice);
  return choice;
}

/** Words that patterns name, by first letter. Whoever types one of them means it, and no other spelt nearly so. */
const named = new Map<string, Set<string>>();
/** Tokens once looked up, with the named words that they may be. */
const meanings = new Map<string, readonly string[]>();
const MEANINGS_KEPT = 20_000;

function learn({ near, exact }: Choice): void {
  for (const word of [...near, ...exact]) {
    const letter = word.slice(0, 1);
    const known = named.get(letter) ?? new Set<string>();
    named.set(letter, known.add(word));
  }
  meanings.clear();
}

/** The named words that a token may be: itself where it is one, else those that it nearly spells. */
function meaningsOf(token: string): readonly string[] {
  const known = meanings.get(token);
  if (known !== undefined) return known;
  const words = named.get(token.slice(0, 1)) ?? new Set<string>();
  const found = words.has(token) ? [token] : [...words].filter((word) => couldMean(token, word));
  if (meanings.size >= MEANINGS_KEPT) meanings.clear();
  meanings.set(token, found);
  return found;
}

/** Reads a pattern. Throws when it names an unknown list: broken knowledge stops the start-up. */
export function patternOf(text: string, lists: WordLists): Pattern {
  return { text, parts: text.split(' ').map((part) => partOf(part, lists)) };
}

function isMatch(token: string, { near, exact, beginnings }: Choice): boolean {
  if (near.has(token) || exact.has(token)) return true;
  if (token === STOP || token === PAUSE) return false;
  if (beginnings.some((beginning) => token.startsWith(beginning))) return true;
  return meaningsOf(token).some((word) => near.has(word));
}

function matchFrom(
  tokens: readonly string[],
  at: number,
  parts: readonly Part[],
  partIndex: number,
): number[] | undefined {
  const part = parts[partIndex];
  if (part === undefined) return [];
  const next = partIndex + 1;
  if (part.kind === 'start') return at === 0 ? matchFrom(tokens, at, parts, next) : undefined;
  const token = tokens[at];
  if (part.kind === 'end') {
    return tokens.slice(at).every((rest) => rest === STOP || rest === PAUSE)
      ? matchFrom(tokens, at, parts, next)
      : undefined;
  }
  if (part.kind === 'gap') return matchAfterGap(tokens, at, parts, next, part.most);
  if (token === PAUSE && at > 0) return matchFrom(tokens, at + 1, parts, partIndex);
  if (token !== undefined && isMatch(token, part)) {
    const rest = matchFrom(tokens, at + 1, parts, next);
    if (rest !== undefined) return [at, ...rest];
  }
  return part.optional ? matchFrom(tokens, at, parts, next) : undefined;
}

const CLAUSE_NEGATORS = new Set(['not', 'no', 'never', 'without', 'sin', 'nunca']);

function matchAfterGap(
  tokens: readonly string[],
  at: number,
  parts: readonly Part[],
  next: number,
  most: number,
): number[] | undefined {
  // What stands after "not" and a comma is no longer denied: "not cracked, just full".
  const staysInClause = CLAUSE_NEGATORS.has(tokens[at - 1] ?? '');
  let skipped = 0;
  for (let start = at; skipped <= most; start += 1) {
    const rest = matchFrom(tokens, start, parts, next);
    if (rest !== undefined) return rest;
    const token = tokens[start];
    if (token === undefined || token === STOP || (staysInClause && token === PAUSE)) return undefined;
    if (token !== PAUSE) skipped += 1;
  }
  return undefined;
}

const distinct = new WeakMap<readonly string[], readonly string[]>();

/** The different tokens of a message; kept as long as the message is, for it is asked for every pattern. */
function distinctTokens(tokens: readonly string[]): readonly string[] {
  const known = distinct.get(tokens);
  if (known !== undefined) return known;
  const found = [...new Set(tokens)];
  distinct.set(tokens, found);
  return found;
}

/** Does the message hold a word for every part that must have one? Spares the search in most cases. */
function couldHold(pattern: Pattern, tokens: readonly string[]): boolean {
  const words = distinctTokens(tokens);
  return pattern.parts.every(
    (part) => part.kind !== 'choice' || part.optional || words.some((word) => isMatch(word, part)),
  );
}

/** Every place in the tokens where the pattern is found, at most one for each starting token. */
export function findAll(pattern: Pattern, tokens: readonly string[]): Found[] {
  if (!couldHold(pattern, tokens)) return [];
  const found: Found[] = [];
  const atStartOnly = pattern.parts[0]?.kind === 'start';
  const last = atStartOnly ? Math.min(1, tokens.length) : tokens.length;
  for (let at = 0; at < last; at += 1) {
    if (tokens[at] === PAUSE || tokens[at] === STOP) continue;
    const positions = matchFrom(tokens, at, pattern.parts, 0);
    if (positions !== undefined && positions.length > 0) found.push({ positions });
  }
  return found;
}
