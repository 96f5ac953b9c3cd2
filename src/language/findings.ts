/** Several things told in one message: readings, the answer to the open question, and findings nobody asked for. */
import type { Asked, Finding, Locale, SpokenReading, Understood } from '../dialogues/event.ts';
import type { CheckId, ComplaintId } from '../knowledge/ids.ts';
import { CHECK_IDS } from '../knowledge/ids.ts';
import { checkById } from '../knowledge/trade.ts';
import { translate } from './texts.ts';
import { answerIn } from './understanding/answers.ts';
import { foldedText } from './understanding/clean.ts';
import { findAll, patternOf } from './understanding/pattern.ts';
import { understand } from './understanding/understand.ts';
import { asksForResult } from './understanding/consent.ts';
import { readingTokens } from './understanding/reading-tokens.ts';
import { readingSpans } from './understanding/readings.ts';
import { isWord, wordsOf } from './understanding/words-of.ts';

/** Names by which a check is told of without being asked for. Only looks that need nothing opened or switched. */
const SUBJECTS: readonly (readonly [CheckId, readonly string[]])[] = [
  [
    'strainer-basket',
    ['pump|strainer basket', 'canasta|canastilla|cesta|cesto de? la? bomba', 'canastilla de la bomba'],
  ],
  ['skimmer-look', ['skimmer', 'skimmers', 'desnatador']],
  [
    'lid-oring-look',
    [
      'lid? o ring|rings',
      'lid? oring|orings',
      'lid? o-ring',
      'lid|rubber ring|gasket|seal',
      'empaque|anillo|junta ~2 tapa?',
    ],
  ],
  ['pump-lid-look', ['lid|window|pot', 'pump lid', 'tapa|visor de? la? bomba']],
  ['canister-look', ['canister|trap', 'leaf canister|trap', 'trampa|canasto']],
  ['cleaner-throat', ['throat', 'garganta']],
  ['return-flow', ['returns|return', 'flow at|from the returns', 'retornos|retorno']],
  ['water-level', ['water level', 'nivel ~2 agua', 'nivel']],
  ['valve-handles', ['valves|handles', 'valvulas|manijas|llaves']],
  [
    'filter-last-cleaned',
    [
      'filter ~3 cleaned|washed|rinsed|backwashed',
      'cleaned|washed|rinsed|backwashed ~2 filter',
      'filtro ~2 limpio|lavo|lavado|limpiado|limpie|lave',
      'limpie|lave|limpiamos|lavamos ~2 filtro',
    ],
  ],
  ['wall-screen', ['wall screen', 'rejilla']],
  ['robot-basket', ['robot basket', 'canasta|cesto del robot']],
];
const PATTERNS = SUBJECTS.map(([check, texts]) => ({
  check,
  patterns: texts.map((text) => patternOf(text, {})),
}));

function questionOf(check: CheckId, locale: Locale): Asked {
  const { outcomes } = checkById(check);
  const options = outcomes.map((id) => ({ id, label: translate(locale, `checks:${check}.outcomes.${id}`) }));
  return { id: check, options };
}

/** A check named in a clause, with the places of the words that name it. */
interface Subject {
  check: CheckId;
  positions: readonly number[];
}

/** The checks that a clause names, in their order; of two names at one place the longer stands: "lid o-ring" is no lid. */
function subjectsIn(tokens: readonly string[]): Subject[] {
  const found = PATTERNS.flatMap(({ check, patterns }) =>
    patterns.flatMap((pattern) => findAll(pattern, tokens).map(({ positions }) => ({ check, positions }))),
  ).sort((one, other) => other.positions.length - one.positions.length);
  const kept: Subject[] = [];
  for (const subject of found)
    if (!kept.some(({ positions }) => positions.some((at) => subject.positions.includes(at))))
      kept.push(subject);
  return kept.sort((one, other) => (one.positions[0] ?? 0) - (other.positions[0] ?? 0));
}

/** "Half full" is neither full nor clear. */
function isByHalves(tokens: readonly string[]): boolean {
  return tokens.some(
    (token, at) => /^(?:half|medio|media)$/u.test(token) && /^(?:full|llen[oa])$/u.test(tokens[at + 1] ?? ''),
  );
}

/** The finding that a clause tells by the name of what was looked at, if it names one thing only. */
function namedFinding(clause: string, locale: Locale): Finding | undefined {
  const tokens = wordsOf(foldedText(clause));
  const [check, ...more] = new Set(subjectsIn(tokens).map((subject) => subject.check));
  if (check === undefined || more.length > 0 || isByHalves(tokens)) return undefined;
  const outcome = answerIn(tokens, questionOf(check, locale), locale);
  return outcome === undefined ? undefined : { check, outcome };
}

/** The parts of a message that may each tell one thing. */
function clausesOf(text: string): string[] {
  const parts = text.split(/[;,.!](?!\d)|\s(?:and|then|also|y|e|luego|tambien|también)\s/iu);
  return parts.map((part) => part.trim()).filter((part) => part !== '');
}

/** The same of a message dictated without a pause: parted before what it names, and around its readings. */
function dictatedClauses(text: string, locale: Locale): string[] {
  return clausesOf(text)
    .flatMap((clause) => {
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
      return starts.slice(1).map((end, index) => tokens.slice(starts[index], end).join(' '));
    })
    .filter((part) => part !== '');
}

type ToldTogether = Extract<Understood, { kind: 'findings' }>;

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

function troubleAmong(
  parts: readonly string[],
  locale: Locale,
): Extract<Understood, { kind: 'trouble' }> | undefined {
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
export function troubleIn(
  text: string,
  locale: Locale,
): Extract<Understood, { kind: 'trouble' }> | undefined {
  return troubleAmong(clausesOf(text), locale) ?? troubleAmong(dictatedClauses(text, locale), locale);
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
  return (
    severalAmong(clausesOf(text), asked, locale) ?? severalAmong(dictatedClauses(text, locale), asked, locale)
  );
}
