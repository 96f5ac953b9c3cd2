import MiniSearch from 'minisearch';
import type { Locale } from '../../dialogues/event.ts';
import { COMPLAINT_IDS, type ComplaintId } from '../../knowledge/ids.ts';
import { COMPLAINTS_EN, SAME_WORDS_EN, SMALL_WORDS_EN } from './words/en/complaints.ts';
import { COMPLAINTS_ES, SAME_WORDS_ES, SMALL_WORDS_ES } from './words/es/complaints.ts';
import { isWord } from './words-of.ts';

/** Words of a message that are searched for; a longer story is cut. */
const MOST_WORDS = 40;

/** A phrase of a complaint, ready for comparison. */
interface Phrase {
  id: string;
  complaint: ComplaintId;
  terms: string;
}

interface Language {
  same: ReadonlyMap<string, string>;
  small: ReadonlySet<string>;
  endings: RegExp;
}

const ENGLISH: Language = {
  same: new Map(Object.entries(SAME_WORDS_EN)),
  small: new Set(SMALL_WORDS_EN.split(/\s+/u)),
  endings: /(?:ings?|ed|es|s|ly)$/u,
};

const SPANISH: Language = {
  same: new Map(Object.entries(SAME_WORDS_ES)),
  small: new Set(SMALL_WORDS_ES.split(/\s+/u)),
  endings: /(?:ando|iendo|arse|erse|irse|ado|ido|ada|ida|an|en|ar|er|ir|os|as|es|o|a|e|s)$/u,
};

/** A word's stem, after different names of one thing were folded into one; undefined for words that tell nothing. */
function termOf(word: string, { same, small, endings }: Language): string | undefined {
  if (small.has(word)) return undefined;
  const named = same.get(word) ?? word;
  if (['no', 'not', 'nothing', 'sin', 'never', 'nunca'].includes(named)) return 'not';
  const stem = named.replace(endings, '');
  return stem.length >= 3 ? stem : named;
}

const termsOf = (words: readonly string[], language: Language): string[] =>
  words.flatMap((word) => termOf(word, language) ?? []);

interface Index {
  language: Language;
  search: MiniSearch<Phrase>;
  termCount: ReadonlyMap<string, number>;
}

function indexOf(table: Readonly<Record<ComplaintId, readonly string[]>>, language: Language): Index {
  const search = new MiniSearch<Phrase>({
    fields: ['terms'],
    storeFields: ['complaint'],
    tokenize: (text) => text.split(' '),
    processTerm: (term) => term,
  });
  const termCount = new Map<string, number>();
  for (const complaint of COMPLAINT_IDS)
    table[complaint].forEach((text, place) => {
      const terms = [...new Set(termsOf(text.split(' '), language))];
      const id = `${complaint} ${place}`;
      termCount.set(id, terms.length);
      search.add({ id, complaint, terms: terms.join(' ') });
    });
  return { language, search, termCount };
}

const INDEXES: Record<Locale, Index> = {
  en: indexOf(COMPLAINTS_EN, ENGLISH),
  es: indexOf(COMPLAINTS_ES, SPANISH),
};

interface Candidate {
  complaint: ComplaintId;
  /** BM25 score times the share of the phrase that the message holds. */
  score: number;
  /** Share of the phrase's terms that the message holds, 0 to 1. */
  heldOfPhrase: number;
  /** Share of the message's terms that the phrase holds, 0 to 1. */
  heldOfMessage: number;
}

/** The best phrase of each complaint, best first. */
function candidates(words: readonly string[], { language, search, termCount }: Index): Candidate[] {
  const terms = [...new Set(termsOf(words, language))].slice(0, MOST_WORDS);
  if (terms.length === 0) return [];
  const found = search.search(terms.join(' '), {
    fuzzy: (term) => (term.length >= 4 ? 0.25 : false),
    prefix: (term) => term.length >= 5,
  });
  const best = new Map<ComplaintId, Candidate>();
  for (const result of found) {
    const complaint = (result as unknown as { complaint: ComplaintId }).complaint;
    const heldOfPhrase = Math.min(1, result.queryTerms.length / (termCount.get(String(result.id)) ?? 1));
    const heldOfMessage = result.queryTerms.length / terms.length;
    const score = result.score * heldOfPhrase;
    if (score > (best.get(complaint)?.score ?? 0))
      best.set(complaint, { complaint, score, heldOfPhrase, heldOfMessage });
  }
  return [...best.values()].sort((one, other) => other.score - one.score);
}

/** Shares of phrase and message that must meet for a complaint to be taken; less is enough where one was asked for. */
const NEEDED = { asked: { phrase: 0.5, message: 0.34 }, unasked: { phrase: 0.6, message: 0.45 } } as const;

/** How far the best complaint must be ahead of the next. */
const LEAD = 1.05;

function clearlyMeant(ranked: readonly Candidate[], isAsked: boolean): ComplaintId | undefined {
  const [best, second] = ranked;
  if (best === undefined) return undefined;
  const needed = isAsked ? NEEDED.asked : NEEDED.unasked;
  if (best.heldOfPhrase < needed.phrase || best.heldOfMessage < needed.message) return undefined;
  return second !== undefined && best.score < second.score * LEAD ? undefined : best.complaint;
}

/**
 * The complaint that a message tells of, by the words it shares with known phrases, misspelt or not; undefined where
 * too little is shared or two complaints are as likely.
 */
export function complaintIn(
  tokens: readonly string[],
  locale: Locale,
  isAsked: boolean,
): ComplaintId | undefined {
  const words = tokens.filter(isWord);
  const other: Locale = locale === 'en' ? 'es' : 'en';
  return (
    clearlyMeant(candidates(words, INDEXES[locale]), isAsked) ??
    clearlyMeant(candidates(words, INDEXES[other]), isAsked)
  );
}
