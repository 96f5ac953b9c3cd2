import type { Asked, Locale } from '../../dialogues/event.ts';
import { asksForConsent, asksForResult, isBareConsent, leavesResultOpen } from './consent.ts';
import { isExactLabel, optionBegunBy, optionByWords } from './labels.ts';
import { isDenied } from './negation.ts';
import { findAll, patternOf, type Pattern, type WordLists } from './pattern.ts';
import { optionByPlace } from './positions.ts';
import { isWord } from './words-of.ts';
import { ANSWER_LISTS_EN, ANSWERS_EN, NO_EN, YES_EN, type AnswerWords } from './words/en/answers.ts';
import { ANSWER_LISTS_ES, ANSWERS_ES, NO_ES, YES_ES } from './words/es/answers.ts';

type Synonyms = ReadonlyMap<string, readonly Pattern[]>;

/** Options that every question may carry beside its own. */
const BESIDE_THE_QUESTION = new Set(['unsure', 'skip', 'no-gauge', 'no-tester', 'no-wheels']);

const EVERYWHERE = '*';

function synonymsOf(table: AnswerWords, lists: WordLists): Synonyms {
  const entries = Object.entries(table).flatMap(([question, outcomes]) =>
    Object.entries(outcomes).map(
      ([outcome, texts]) => [`${question} ${outcome}`, texts.map((text) => patternOf(text, lists))] as const,
    ),
  );
  return new Map(entries);
}

interface Language {
  synonyms: Synonyms;
  yes: readonly Pattern[];
  no: readonly Pattern[];
}

const ready = (texts: readonly string[]): Pattern[] => texts.map((text) => patternOf(text, {}));

const LANGUAGES: Record<Locale, Language> = {
  en: { synonyms: synonymsOf(ANSWERS_EN, ANSWER_LISTS_EN), yes: ready(YES_EN), no: ready(NO_EN) },
  es: { synonyms: synonymsOf(ANSWERS_ES, ANSWER_LISTS_ES), yes: ready(YES_ES), no: ready(NO_ES) },
};

/** A question's own synonyms count a little more than the general ones. */
const OWN_WORDS_BONUS = 0.5;

interface Match {
  id: string;
  score: number;
}

interface Matches {
  meant: Match[];
  denied: string[];
}

/** How much of the message each option's synonyms account for, and which of them the message denies. */
function matchesOf(tokens: readonly string[], asked: Asked, synonyms: Synonyms): Matches {
  const meant: Match[] = [];
  const denied: string[] = [];
  for (const { id } of asked.options)
    for (const question of [asked.id, EVERYWHERE])
      for (const pattern of synonyms.get(`${question} ${id}`) ?? [])
        for (const found of findAll(pattern, tokens)) {
          const bonus = question === EVERYWHERE ? 0 : OWN_WORDS_BONUS;
          if (isDenied(tokens, found)) denied.push(id);
          else meant.push({ id, score: found.positions.length + bonus });
        }
  return { meant, denied };
}

/** The best match, unless another option is matched as well. */
function clearBest(matches: readonly Match[]): string | undefined {
  const best = new Map<string, number>();
  for (const { id, score } of matches) best.set(id, Math.max(score, best.get(id) ?? 0));
  const [first, second] = [...best].sort(([, one], [, other]) => other - one);
  return first === undefined || first[1] === second?.[1] ? undefined : first[0];
}

/** Of a question with two outcomes, the one that is left when the other is denied. */
function leftOver(denied: readonly string[], asked: Asked): string | undefined {
  const own = asked.options.filter(({ id }) => !BESIDE_THE_QUESTION.has(id)).map(({ id }) => id);
  const left = own.filter((id) => !denied.includes(id));
  return own.length === 2 && left.length === 1 ? left[0] : undefined;
}

function bySynonyms(tokens: readonly string[], asked: Asked, synonyms: Synonyms): string | undefined {
  const { meant, denied } = matchesOf(tokens, asked, synonyms);
  return meant.length > 0 ? clearBest(meant) : leftOver(denied, asked);
}

const YES_OPTIONS = ['yes', 'worked', 'understood'];
const NO_OPTIONS = ['no', 'not-yet'];

/** Yes and no, where the question has options that they can mean. */
function byYesOrNo(tokens: readonly string[], asked: Asked, { yes, no }: Language): string | undefined {
  const ids = asked.options.map(({ id }) => id);
  const isSaid = (patterns: readonly Pattern[]): boolean =>
    patterns.some((pattern) => findAll(pattern, tokens).length > 0);
  if (isSaid(no)) {
    const refusal = NO_OPTIONS.find((id) => ids.includes(id));
    return refusal ?? (ids.includes('yes') ? leftOver(['yes'], asked) : undefined);
  }
  return isSaid(yes) ? YES_OPTIONS.find((id) => ids.includes(id)) : undefined;
}

function inLanguage(tokens: readonly string[], asked: Asked, language: Language): string | undefined {
  const isYesNo = asked.options.some(({ id }) => id === 'yes') && asked.options.some(({ id }) => id === 'no');
  const answer = isYesNo ? byYesOrNo(tokens, asked, language) : undefined;
  return answer ?? bySynonyms(tokens, asked, language.synonyms) ?? byYesOrNo(tokens, asked, language);
}

function inOwnWords(
  tokens: readonly string[],
  words: readonly string[],
  asked: Asked,
  locale: Locale,
): string | undefined {
  const other: Locale = locale === 'en' ? 'es' : 'en';
  return (
    inLanguage(tokens, asked, LANGUAGES[locale]) ??
    optionByWords(tokens, asked.options) ??
    optionBegunBy(words, asked.options) ??
    inLanguage(tokens, asked, LANGUAGES[other])
  );
}

/**
 * The option that a message chooses in the person's own words, or undefined where none is clearly meant: the label,
 * its place in the list (not where a number is wanted), synonyms of the outcome, yes and no, words of the label.
 * A denied synonym ("not blocked") never chooses its option. A caution takes nothing but a bare acknowledgement, and a
 * repair that was done is not yet one that helped.
 */
export function answerIn(tokens: readonly string[], asked: Asked, locale: Locale): string | undefined {
  const words = tokens.filter(isWord);
  if (words.length === 0) return undefined;
  const exact = asked.options.find((option) => isExactLabel(words, option));
  if (exact !== undefined) return exact.id;
  const place = asked.reading === undefined ? optionByPlace(words, asked.options) : undefined;
  if (place !== undefined) return place;
  if (asksForConsent(asked) && !isBareConsent(words)) return undefined;
  const option = inOwnWords(tokens, words, asked, locale);
  return asksForResult(asked) && leavesResultOpen(words, option) ? undefined : option;
}
