/** Pieces that pictures are put together from. */

/** Widths of characters of DejaVu Sans Bold as a share of their size, on the safe side; the plain font is narrower. */
const WIDEST = 1.12;
const CAPITAL = 0.86;
const OTHER = 0.68;

/** Text as it may stand in SVG. Control characters may not, however they are written. */
export function escapedXml(text: string): string {
  const printable = text.replaceAll(/\p{Cc}/gu, ' ');
  return printable
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;');
}

const segmenter = new Intl.Segmenter();

/** What a reader takes for one character each. */
function characters(text: string): string[] {
  return Array.from(segmenter.segment(text), ({ segment }) => segment);
}

function share(character: string): number {
  if (/^[MWmw@%]|^[^\u0000-\u024f\u2010-\u2027]/u.test(character)) return WIDEST;
  return /^\p{Lu}/u.test(character) ? CAPITAL : OTHER;
}

/** About how wide a text is at most, pixels. */
export function widthOf(text: string, size: number): number {
  return characters(text).reduce((sum, character) => sum + share(character), 0) * size;
}

/** The size, at most `size`, at which a text takes no more than a width. */
export function fittingSize(text: string, size: number, width: number): number {
  return Math.min(size, (size * width) / Math.max(1, widthOf(text, size)));
}

/** A word in pieces no wider than a width. */
function pieces(word: string, size: number, width: number): string[] {
  const found: string[] = [''];
  for (const character of characters(word)) {
    const longer = `${found.at(-1) ?? ''}${character}`;
    if (longer === character || widthOf(longer, size) <= width) found[found.length - 1] = longer;
    else found.push(character);
  }
  return found;
}

/** A text in lines no wider than a width; a word that is wider alone is broken. */
export function wrapped(text: string, size: number, width: number): string[] {
  const lines: string[] = [];
  for (const word of text.split(/\s+/u).flatMap((one) => pieces(one, size, width))) {
    const longer = `${lines.at(-1) ?? ''} ${word}`;
    if (lines.length > 0 && widthOf(longer, size) <= width) lines[lines.length - 1] = longer;
    else lines.push(word);
  }
  return lines;
}
