import type { Asked, Locale, Understood } from '../../dialogues/event.ts';
import { answerIn } from './answers.ts';
import { foldedText, visibleText } from './clean.ts';
import { commandIn } from './commands.ts';
import { complaintIn } from './complaints.ts';
import { emergencyIn } from './emergency.ts';
import { isOfNumber, readingTokens, spokenNumbers } from './reading-tokens.ts';
import { readingsIn } from './readings.ts';
import { isWord, wordsOf } from './words-of.ts';

/** Fewest words beside its numbers in a text that tells of trouble rather than of a gauge. */
const WORDS_OF_A_STORY = 6;

function readingsMeant(folded: string, asked: Asked | undefined, locale: Locale): Understood | undefined {
  const readings = readingsIn(folded, asked, locale);
  return readings.length === 0 ? undefined : { kind: 'readings', readings };
}

function answerMeant(
  tokens: readonly string[],
  asked: Asked | undefined,
  locale: Locale,
): Understood | undefined {
  const option = asked === undefined ? undefined : answerIn(tokens, asked, locale);
  if (option === undefined) return undefined;
  return option === 'unsure' || option === 'skip'
    ? { kind: 'command', id: option }
    : { kind: 'answer', option };
}

function complaintMeant(tokens: readonly string[], locale: Locale, isAsked: boolean): Understood | undefined {
  const id = complaintIn(tokens, locale, isAsked);
  return id === undefined ? undefined : { kind: 'complaint', id };
}

function wordsBesideNumbers(folded: string, locale: Locale): number {
  const tokens = readingTokens(folded);
  const numbers = spokenNumbers(tokens, locale);
  return tokens.filter((token, at) => isWord(token) && !isOfNumber(numbers, at)).length;
}

/** Where trouble is asked for, a story with a number in it is trouble; a bare list of readings is not. */
function meantWhenTroubleIsAsked(
  folded: string,
  tokens: readonly string[],
  asked: Asked,
  locale: Locale,
): Understood | undefined {
  const readings = readingsMeant(folded, asked, locale);
  if (readings !== undefined && wordsBesideNumbers(folded, locale) < WORDS_OF_A_STORY) return readings;
  return complaintMeant(tokens, locale, true) ?? readings ?? answerMeant(tokens, asked, locale);
}

function meant(
  folded: string,
  tokens: readonly string[],
  asked: Asked | undefined,
  locale: Locale,
): Understood | undefined {
  if (asked?.id === 'complaint') return meantWhenTroubleIsAsked(folded, tokens, asked, locale);
  // With the pump off the needle shows no pressure of the filter: "it stays at 10 psi" is an answer, no reading.
  const readings = asked?.id === 'gauge-returns-zero' ? undefined : readingsMeant(folded, asked, locale);
  const answer = readings ?? answerMeant(tokens, asked, locale);
  // Words that refuse a caution are not to be taken for new trouble.
  const isCaution = asked?.options.some(({ id }) => id === 'understood') ?? false;
  return answer ?? (isCaution ? undefined : complaintMeant(tokens, locale, false));
}

/**
 * What a typed or dictated message means to the conversation. Never throws; any string.
 *
 * Emergencies of either language win over everything; then commands, readings, the answer to the question on the
 * screen, a complaint; else the message is unclear. Where the conversation asks for the complaint, that comes before
 * readings and answers.
 * @param asked the question on the screen, if there is one.
 * @param locale the person's language: it decides doubtful words only, both languages are always understood.
 */
export function understand(text: string, asked: Asked | undefined, locale: Locale): Understood {
  const visible = visibleText(text);
  const folded = foldedText(text);
  const tokens = wordsOf(folded);
  const emergency = emergencyIn(tokens);
  if (emergency !== undefined) return { kind: 'emergency', id: emergency };
  const command = commandIn(visible, tokens, asked);
  if (command !== undefined) return command;
  return meant(folded, tokens, asked, locale) ?? { kind: 'unclear', text: visible };
}
