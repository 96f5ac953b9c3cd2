/** Pieces that pictures are put together from. */

/** Mean width of a character of DejaVu Sans as a share of its size, on the safe side for words and figures. */
const CHARACTER = 0.62;

/** Text as it may stand in SVG. Control characters may not, however they are written. */
export function escapedXml(text: string): string {
  const printable = text.replaceAll(/\p{Cc}/gu, ' ');
  return printable
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;');
}

/** About how wide a text is, pixels. */
export function widthOf(text: string, size: number): number {
  return [...text].length * size * CHARACTER;
}

/** The size, at most `size`, at which a text takes no more than a width. */
export function fittingSize(text: string, size: number, width: number): number {
  return Math.min(size, (size * width) / Math.max(1, widthOf(text, size)));
}

/** A word in pieces no longer than so many characters. */
function pieces(word: string, most: number): string[] {
  const characters = [...word];
  const count = Math.ceil(characters.length / most);
  return Array.from({ length: count }, (_, index) =>
    characters.slice(index * most, (index + 1) * most).join(''),
  );
}

/** A text in lines no wider than a width; a word that is wider alone is broken. */
export function wrapped(text: string, size: number, width: number): string[] {
  const most = Math.max(1, Math.floor(width / (size * CHARACTER)));
  const lines: string[] = [];
  for (const word of text.split(/\s+/u).flatMap((one) => pieces(one, most))) {
    const last = lines.at(-1);
    if (last !== undefined && [...last, ' ', ...word].length <= most)
      lines[lines.length - 1] = `${last} ${word}`;
    else lines.push(word);
  }
  return lines;
}
