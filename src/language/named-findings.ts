/** Findings that a clause tells by the name of what was looked at, asked for or not. */
import type { Asked, Finding, Locale } from '../dialogues/event.ts';
import type { CheckId } from '../knowledge/ids.ts';
import { checkById } from '../knowledge/trade.ts';
import { translate } from './texts.ts';
import { answerIn } from './understanding/answers.ts';
import { foldedText } from './understanding/clean.ts';
import { findAll, patternOf } from './understanding/pattern.ts';
import { wordsOf } from './understanding/words-of.ts';

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
export function subjectsIn(tokens: readonly string[]): Subject[] {
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
export function namedFinding(clause: string, locale: Locale): Finding | undefined {
  const tokens = wordsOf(foldedText(clause));
  const [check, ...more] = new Set(subjectsIn(tokens).map((subject) => subject.check));
  if (check === undefined || more.length > 0 || isByHalves(tokens)) return undefined;
  const outcome = answerIn(tokens, questionOf(check, locale), locale);
  return outcome === undefined ? undefined : { check, outcome };
}
