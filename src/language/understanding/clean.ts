/** Longest stretch of a message that is read; of a longer one the beginning and the end are kept. */
const KEPT_CHARS = 800;

/** Beyond this nothing is read: no person writes so much. */
const READ_CHARS = 200_000;

const EMOJI_WORDS: readonly (readonly [RegExp, string])[] = [
  [/[\u{1F44D}\u{1F44C}\u2705\u2714]/gu, ' ok '],
  [/[\u{1F44E}\u274C]/gu, ' no '],
];

const FRACTIONS: Readonly<Record<string, string>> = { '½': ' 1/2 ', '¼': ' 1/4 ', '¾': ' 3/4 ' };

const UNSEEN = /[\p{Cc}\p{Cf}\p{Co}\p{Cn}\p{Cs}\uFE0E\uFE0F]/gu;
const SPACES = /[\t\v\f\r\n\u0085\p{Zs}\p{Zl}\p{Zp}]+/gu;

/** The beginning and the end of a very long text: a cry for help may stand at either. */
function shortened(text: string): string {
  if (text.length <= 2 * KEPT_CHARS) return text;
  return `${text.slice(0, KEPT_CHARS)} . ${text.slice(-KEPT_CHARS)}`;
}

/**
 * The text as the person sees it: without control, zero-width and direction characters, spaces made plain,
 * capped in length. Case and accents are kept. Any string.
 */
export function visibleText(text: string): string {
  return shortened(text.slice(0, READ_CHARS).replace(SPACES, ' ').replace(UNSEEN, '')).trim();
}

/** Visible text folded for comparison: lower case, no accents, plain quotes and dashes, emoji as words or gone. */
export function foldedText(text: string): string {
  const lines = text.slice(0, READ_CHARS).replace(/[\r\n]+/gu, ' , ');
  let folded = visibleText(lines).replace(/[½¼¾]/gu, (sign) => FRACTIONS[sign] ?? ' ');
  for (const [sign, word] of EMOJI_WORDS) folded = folded.replace(sign, word);
  // Normalising can make a sign many letters: shorten once more.
  return shortened(folded.normalize('NFKD'))
    .replace(/\p{M}+/gu, '')
    .toLowerCase()
    .replace(/[‘’‛`´ʼ]/gu, "'")
    .replace(/[“”„«»]/gu, '"')
    .replace(/[‐‑‒–—−]/gu, '-')
    .replace(/⁄/gu, '/')
    .replace(/\p{Extended_Pictographic}/gu, ' , ')
    .replace(/[¿¡]/gu, ' ')
    .trim();
}
