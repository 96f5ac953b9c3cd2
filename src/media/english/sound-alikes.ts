/** Numbers that recognition takes for one another and whose scores do not tell them apart. */
export const SOUND_ALIKES: readonly (readonly [string, string])[] = [
  ['thirteen', 'thirty'],
  ['fourteen', 'forty'],
  ['fifteen', 'fifty'],
  ['sixteen', 'sixty'],
  ['thirteen', 'thirty eight'],
  ['five', 'nine'],
  ['fifteen', 'sixteen'],
  ['six', 'sixty'],
];

/** The end of a "-teen" drawn out is taken for a "-ty" with one more digit: "fourteen" for "forty two". */
const DRAWN_OUT = /\b(thir|for|fif|six|seven|eigh|nine)ty (?:two|eight)\b/u;
const TEENS: Readonly<Record<string, string>> = { for: 'fourteen' };

function drawnOut(text: string): string[] {
  const found = DRAWN_OUT.exec(text);
  if (found === null) return [];
  const [said, stem = ''] = found;
  return [text.replace(said, TEENS[stem] ?? `${stem}teen`)];
}

/** The text with each number that has a sound-alike exchanged for it, one exchange a text; the text itself is not among them. */
export function soundAlikesOf(text: string): string[] {
  const padded = ` ${text} `;
  const exchange = (from: string, to: string): string[] =>
    padded.includes(` ${from} `) ? [padded.replace(` ${from} `, ` ${to} `).trim()] : [];
  const texts = SOUND_ALIKES.flatMap(([one, other]) => [...exchange(one, other), ...exchange(other, one)]);
  return [...new Set([...drawnOut(text), ...texts])].filter((other) => other !== text);
}
