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

/** The text with each number that has a sound-alike exchanged for it, one exchange a text; the text itself is not among them. */
export function soundAlikesOf(text: string): string[] {
  const padded = ` ${text} `;
  const exchange = (from: string, to: string): string[] =>
    padded.includes(` ${from} `) ? [padded.replace(` ${from} `, ` ${to} `).trim()] : [];
  const texts = SOUND_ALIKES.flatMap(([one, other]) => [...exchange(one, other), ...exchange(other, one)]);
  return [...new Set(texts)].filter((other) => other !== text);
}
