import { COMMON_WORDS } from './words/common.ts';

/** Fewest letters of a word for one slip, and for two slips, of spelling to be forgiven. */
const LETTERS_FOR_ONE_SLIP = 5;
const LETTERS_FOR_TWO_SLIPS = 8;

/**
 * Optimal string alignment distance: insertions, deletions, substitutions and swaps of neighbours.
 * Stops early and gives `limit + 1` when the distance is above `limit`.
 */
function slipsBetween(left: string, right: string, limit: number): number {
  if (Math.abs(left.length - right.length) > limit) return limit + 1;
  let beforeLast: number[] = [];
  let last = Array.from({ length: right.length + 1 }, (_, column) => column);
  for (let row = 1; row <= left.length; row += 1) {
    const current = [row];
    for (let column = 1; column <= right.length; column += 1) {
      const same = left[row - 1] === right[column - 1];
      let slips = Math.min(
        (last[column] ?? 0) + 1,
        (current[column - 1] ?? 0) + 1,
        (last[column - 1] ?? 0) + (same ? 0 : 1),
      );
      const swapped = left[row - 1] === right[column - 2] && left[row - 2] === right[column - 1];
      if (row > 1 && column > 1 && swapped) slips = Math.min(slips, (beforeLast[column - 2] ?? 0) + 1);
      current.push(slips);
    }
    if (Math.min(...current) > limit) return limit + 1;
    beforeLast = last;
    last = current;
  }
  return last[right.length] ?? limit + 1;
}

function slipsForgiven(word: string): number {
  if (word.length >= LETTERS_FOR_TWO_SLIPS) return 2;
  return word.length >= LETTERS_FOR_ONE_SLIP ? 1 : 0;
}

/** "smokeee" as "smokee" and "smoke": a letter held down is no part of the word. */
function withoutHeldKeys(token: string): string[] {
  if (!/(.)\1\1/u.test(token)) return [token];
  return [token.replace(/(.)\1{2,}/gu, '$1'), token.replace(/(.)\1{2,}/gu, '$1$1')];
}

/**
 * May `token`, as typed, be the misspelt `word`? Both folded. The first letter must be right, and a token that is
 * itself an ordinary word (small, stick, tangled) is never taken for another (smell, stuck, tingled).
 */
export function couldMean(token: string, word: string): boolean {
  return withoutHeldKeys(token).some((form) => {
    if (form === word) return true;
    const limit = slipsForgiven(word);
    if (limit === 0 || form[0] !== word[0] || form.length < 4 || COMMON_WORDS.has(form)) return false;
    return slipsBetween(form, word, limit) <= limit;
  });
}
