/** Texts for the platform: escaped, and split where they are too long. */

/** Most characters of one message after its marks are read, as the public Bot API documentation states. */
export const LONGEST_TEXT = 4096;

/** Text with `<`, `>` and `&` escaped, as the platform's HTML asks. */
export function escaped(text: string): string {
  return text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;');
}

/** The best place to cut before a limit: after a paragraph, a line, a sentence, a word; else anywhere but in a character. */
function cutOf(text: string, limit: number): number {
  const window = text.slice(0, limit);
  for (const end of ['\n\n', '\n', '. ', ' ']) {
    const at = window.lastIndexOf(end);
    if (at > limit / 2) return at + end.length;
  }
  const isPairSplit = /[\uD800-\uDBFF]$/.test(window);
  return isPairSplit ? limit - 1 : limit;
}

/** A text in parts of at most `limit` characters, cut at paragraph ends where that is possible. */
export function split(text: string, limit: number): string[] {
  const parts: string[] = [];
  let rest = text;
  while (rest.length > limit) {
    const cut = cutOf(rest, limit);
    parts.push(rest.slice(0, cut).trimEnd());
    rest = rest.slice(cut).trimStart();
  }
  parts.push(rest);
  return parts.filter((part, index) => part !== '' || index === 0);
}
