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
import { isWord, wordsOf } from './understanding/words-of.ts';

/** Names by which a check is told of without being asked for. Only looks that need nothing opened or switched. */
const SUBJECTS: readonly (readonly [CheckId, readonly string[]])[] = [
  [
    'strainer-basket',
    ['pump|strainer basket', 'canasta|canastilla|cesta|cesto de? la? bomba', 'canastilla de la bomba'],
  ],
  ['skimmer-look', ['skimmer', 'skimmers', 'desnatador']],
  ['pump-lid-look', ['lid|window', 'pump lid', 'tapa|visor de? la? bomba']],
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

/** The finding that a clause tells by the name of what was looked at, if it names one thing only. */
function namedFinding(clause: string, locale: Locale): Finding | undefined {
  const tokens = wordsOf(foldedText(clause));
  const named = PATTERNS.filter(({ patterns }) =>
    patterns.some((pattern) => findAll(pattern, tokens).length > 0),
  );
  const [first, second] = named;
  if (first === undefined || second !== undefined) return undefined;
  const outcome = answerIn(tokens, questionOf(first.check, locale), locale);
  return outcome === undefined ? undefined : { check: first.check, outcome };
}

/** The parts of a message that may each tell one thing. */
function clausesOf(text: string): string[] {
  const parts = text.split(/[;,.!](?!\d)|\s(?:and|then|also|y|e|luego|tambien|también)\s/iu);
  return parts.map((part) => part.trim()).filter((part) => part !== '');
}

type Part = { readings: readonly SpokenReading[] } | { finding: Finding };

function partOf(clause: string, asked: Asked | undefined, locale: Locale): Part | undefined {
  const finding = namedFinding(clause, locale);
  if (finding !== undefined) return { finding };
  const alone = understand(clause, asked, locale);
  if (alone.kind === 'readings') return { readings: alone.readings };
  const check = CHECK_IDS.find((id) => id === asked?.id);
  if (alone.kind !== 'answer' || check === undefined || asked?.reading !== undefined) return undefined;
  return checkById(check).outcomes.includes(alone.option)
    ? { finding: { check, outcome: alone.option } }
    : undefined;
}

function complaintIn(clauses: readonly string[], locale: Locale): ComplaintId | undefined {
  const meant = understand(clauses.join(', '), undefined, locale);
  return meant.kind === 'complaint' ? meant.id : undefined;
}

/**
 * What is wrong, told with readings or with what was seen; undefined where it is not both. A clause that tells what is
 * wrong is not taken for something seen as well: it would count twice.
 */
export function troubleIn(
  text: string,
  locale: Locale,
): Extract<Understood, { kind: 'trouble' }> | undefined {
  const clauses = clausesOf(text).map((clause) => {
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
 * What a message tells that gives findings beside readings or beside each other; undefined where it is not wholly made
 * of such: nothing of it is guessed, and nothing lost. `asked`: the check that is open.
 */
export function severalIn(
  text: string,
  asked: Asked | undefined,
  locale: Locale,
): Extract<Understood, { kind: 'findings' }> | undefined {
  const clauses = clausesOf(text).filter((clause) => wordsOf(foldedText(clause)).some(isWord));
  const parts = clauses.map((clause) => partOf(clause, asked, locale));
  const known = parts.filter((part) => part !== undefined);
  const findings = known.flatMap((part) => ('finding' in part ? [part.finding] : []));
  const readings = known.flatMap((part) => ('readings' in part ? part.readings : []));
  const isWhole = known.length === clauses.length;
  const isMore = findings.length > 1 || (findings.length === 1 && readings.length > 0);
  const isUnasked = findings.some(({ check }) => check !== asked?.id);
  if (!isWhole || findings.length === 0 || !(isMore || isUnasked)) return undefined;
  const checks = new Set(findings.map(({ check }) => check));
  const quantities = new Set(readings.map(({ quantity, earlier }) => `${quantity} ${earlier === true}`));
  if (checks.size < findings.length || quantities.size < readings.length) return undefined;
  return { kind: 'findings', findings, readings: [...readings] };
}
