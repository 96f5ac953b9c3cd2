/** Several things told in one message: readings, the answer to the open question, and findings nobody asked for. */
import type { Asked, Finding, Locale, SpokenReading, ToldTogether, ToldTrouble } from '../dialogues/event.ts';
import type { ComplaintId } from '../knowledge/ids.ts';
import { CHECK_IDS } from '../knowledge/ids.ts';
import { checkById } from '../knowledge/trade.ts';
import { namedFinding, subjectsIn } from './named-findings.ts';
import { foldedText } from './understanding/clean.ts';
import { asksForResult } from './understanding/consent.ts';
import { readingTokens } from './understanding/reading-tokens.ts';
import { readingSpans } from './understanding/readings.ts';
import { understand } from './understanding/understand.ts';
import { isWord, wordsOf } from './understanding/words-of.ts';

/** The parts of a message that may each tell one thing. */
function clausesOf(text: string): string[] {
  const parts = text.split(/[;,.!](?!\d)|\s(?:and|then|also|y|e|luego|tambien|también)\s/iu);
  return parts.map((part) => part.trim()).filter((part) => part !== '');
}

/** A clause dictated without a pause, parted before what it names and around its readings. */
function partedClause(clause: string, locale: Locale): string[] {
  const tokens = readingTokens(foldedText(clause));
  const spans = readingSpans(tokens, locale);
  const cuts = new Set([
    ...subjectsIn(tokens).map(({ positions }) => positions[0] ?? 0),
    ...spans.flatMap(({ start, end }) => [start, end]),
  ]);
  const isWithin = (at: number): boolean => spans.some(({ start, end }) => at > start && at < end);
  const starts = [
    0,
    ...[...cuts].filter((at) => at > 0 && !isWithin(at)).sort((a, b) => a - b),
    tokens.length,
  ];
  const parts = starts.slice(1).map((end, index) => tokens.slice(starts[index], end).join(' '));
  return parts.filter((part) => part !== '');
}

/** What the clauses of a message tell; where they tell nothing, what they tell parted as one dictates. */
function amongClauses<Told>(
  text: string,
  locale: Locale,
  among: (clauses: readonly string[]) => Told | undefined,
): Told | undefined {
  const clauses = clausesOf(text);
  const told = among(clauses);
  if (told !== undefined) return told;
  const parted = clauses.flatMap((clause) => partedClause(clause, locale));
  return parted.length > clauses.length ? among(parted) : undefined;
}

type Part = { readings: readonly SpokenReading[] } | { finding: Finding } | { result: string };

function partOf(clause: string, asked: Asked | undefined, locale: Locale): Part | undefined {
  const finding = namedFinding(clause, locale);
  if (finding !== undefined) return { finding };
  const alone = understand(clause, asked, locale);
  if (alone.kind === 'readings') return { readings: alone.readings };
  if (alone.kind === 'answer' && asked !== undefined && asksForResult(asked)) return { result: alone.option };
  const check = CHECK_IDS.find((id) => id === asked?.id);
  if (alone.kind !== 'answer' || check === undefined || asked?.reading !== undefined) return undefined;
  return checkById(check).outcomes.includes(alone.option)
    ? { finding: { check, outcome: alone.option } }
    : undefined;
}

/** What is wrong by these clauses together, else by the first that tells it. */
function complaintIn(clauses: readonly string[], locale: Locale): ComplaintId | undefined {
  for (const some of [clauses.join(', '), ...clauses]) {
    const meant = understand(some, undefined, locale);
    if (meant.kind === 'complaint') return meant.id;
  }
  return undefined;
}

function troubleAmong(parts: readonly string[], locale: Locale): ToldTrouble | undefined {
  const clauses = parts.map((clause) => {
    const alone = understand(clause, undefined, locale);
    const readings = alone.kind === 'readings' ? alone.readings : [];
    return { clause, readings, found: readings.length > 0 ? undefined : namedFinding(clause, locale) };
  });
  const readings = clauses.flatMap((one) => one.readings);
  const unread = clauses.filter((one) => one.readings.length === 0);
  const textsOf = (some: typeof clauses): string[] => some.map(({ clause }) => clause);
  const besides = complaintIn(textsOf(unread.filter(({ found }) => found === undefined)), locale);
  const findings = besides === undefined ? [] : clauses.flatMap(({ found }) => found ?? []);
  const complaint = besides ?? complaintIn(textsOf(unread), locale);
  if (complaint === undefined || readings.length + findings.length === 0) return undefined;
  return { kind: 'trouble', complaint, findings, readings };
}

/**
 * What is wrong, told with readings or with what was seen; undefined where it is not both. A clause that tells what is
 * wrong is not taken for something seen as well: it would count twice.
 */
export function troubleIn(text: string, locale: Locale): ToldTrouble | undefined {
  return amongClauses(text, locale, (clauses) => troubleAmong(clauses, locale));
}

function severalAmong(
  parts: readonly string[],
  asked: Asked | undefined,
  locale: Locale,
): ToldTogether | undefined {
  const clauses = parts.filter((clause) => wordsOf(foldedText(clause)).some(isWord));
  const known = clauses.map((clause) => partOf(clause, asked, locale)).filter((part) => part !== undefined);
  const findings = known.flatMap((part) => ('finding' in part ? [part.finding] : []));
  const readings = known.flatMap((part) => ('readings' in part ? part.readings : []));
  const [result, ...others] = known.flatMap((part) => ('result' in part ? [part.result] : []));
  const isWhole = known.length === clauses.length && others.length === 0;
  const isResult = result !== undefined && findings.length + readings.length > 0;
  const isMore = findings.length > 1 || (findings.length === 1 && readings.length > 0);
  const isUnasked = findings.some(({ check }) => check !== asked?.id);
  if (!isWhole || !(isResult || (findings.length > 0 && (isMore || isUnasked)))) return undefined;
  const checks = new Set(findings.map(({ check }) => check));
  const quantities = new Set(readings.map(({ quantity, earlier }) => `${quantity} ${earlier === true}`));
  if (checks.size < findings.length || quantities.size < readings.length) return undefined;
  const told: ToldTogether = { kind: 'findings', findings, readings: [...readings] };
  return result === undefined ? told : { ...told, result };
}

/**
 * What a message tells that gives findings beside readings or beside each other; undefined where it is not wholly made
 * of such: nothing of it is guessed, and nothing lost. `asked`: the check that is open.
 */
export function severalIn(text: string, asked: Asked | undefined, locale: Locale): ToldTogether | undefined {
  return amongClauses(text, locale, (clauses) => severalAmong(clauses, asked, locale));
}
