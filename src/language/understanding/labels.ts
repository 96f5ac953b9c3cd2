import type { Asked } from '../../dialogues/event.ts';
import { foldedText } from './clean.ts';
import { isDenied } from './negation.ts';
import { couldMean } from './spelling.ts';
import { isWord, wordsOf } from './words-of.ts';

type Option = Asked['options'][number];

/** Words that tell no option from another. */
const SMALL = new Set(
  `it is the a an of that this there i in on at to be are was has have do does did and but or with my its s out up so very
  el la los las un una de del que se es esta en lo le y o pero con mi su por al hay muy yo`.split(/\s+/u),
);

const NEGATIONS = new Set([
  'no',
  'not',
  'without',
  'nothing',
  'sin',
  'nada',
  'never',
  'nunca',
  'nobody',
  'nadie',
  'none',
]);

const labelWords = (option: Option): string[] => wordsOf(foldedText(option.label)).filter(isWord);

/** Is the message just this option's label or id? */
export function isExactLabel(words: readonly string[], option: Option): boolean {
  if (words.length === 0) return false;
  const said = words.join(' ');
  return (
    said === labelWords(option).join(' ') || said === option.id || said === option.id.replaceAll('-', ' ')
  );
}

/** The option of which the message is the beginning, if of one only: "half", "h". */
export function optionBegunBy(words: readonly string[], options: readonly Option[]): string | undefined {
  const said = words.join(' ');
  if (said === '' || /^\d/u.test(said)) return undefined;
  const begun = options.filter((option) => labelWords(option).join(' ').startsWith(said));
  return begun.length === 1 ? begun[0]?.id : undefined;
}

interface Scored {
  id: string;
  score: number;
}

function distinctiveWords(option: Option, options: readonly Option[]): string[] {
  const others = new Set(options.filter((other) => other !== option).flatMap(labelWords));
  return [...new Set(labelWords(option))].filter(
    (word) => word.length > 1 && !SMALL.has(word) && !others.has(word),
  );
}

function scored(tokens: readonly string[], option: Option, options: readonly Option[]): Scored {
  const distinctive = distinctiveWords(option, options);
  const isNegative = labelWords(option).some((word) => NEGATIONS.has(word));
  const said = distinctive.filter((word) => {
    const at = tokens.findIndex((token) => isWord(token) && couldMean(token, word));
    if (at < 0) return false;
    return isNegative || NEGATIONS.has(word) || !isDenied(tokens, { positions: [at] });
  });
  const agrees = !isNegative || tokens.some((token) => NEGATIONS.has(token));
  const share = distinctive.length === 0 ? 0 : said.length / distinctive.length;
  const content = said.filter((word) => !NEGATIONS.has(word)).length;
  return { id: option.id, score: agrees && share >= 0.5 && content > 0 ? said.length + share : 0 };
}

/** The option with which the message shares at least half of the words that tell it from the others. */
export function optionByWords(tokens: readonly string[], options: readonly Option[]): string | undefined {
  const ranked = options
    .map((option) => scored(tokens, option, options))
    .sort((one, other) => other.score - one.score);
  const [best, second] = ranked;
  if (best === undefined || best.score === 0 || best.score === second?.score) return undefined;
  return best.id;
}
