import type { EmergencyId } from '../../knowledge/ids.ts';
import type { EmergencyRule } from './emergency-rule.ts';
import { isDenied } from './negation.ts';
import { findAll, patternOf, type Found, type Pattern, type WordLists } from './pattern.ts';
import { PAUSE, STOP } from './words-of.ts';
import {
  EMERGENCY_LISTS_EN,
  EMERGENCY_RULES_EN,
  LONG_AGO_EN,
  NOW_EN,
  SUPPOSED_EN,
} from './words/en/emergencies.ts';
import {
  EMERGENCY_LISTS_ES,
  EMERGENCY_RULES_ES,
  LONG_AGO_ES,
  NOW_ES,
  SUPPOSED_ES,
} from './words/es/emergencies.ts';

/** Which rescue is told first when a message holds two: the one with the most specific first act. */
const PRECEDENCE: readonly EmergencyId[] = [
  'held-by-suction',
  'electric-shock',
  'chlorine-gas',
  'person-hurt',
  'smoke-or-burning',
  'gas-smell',
  'breaker-trips-twice',
  'suction-cover-missing',
];

interface ReadyRule {
  id: EmergencyId;
  says: readonly Pattern[];
  unless: readonly Pattern[];
}

const ready = (texts: readonly string[], lists: WordLists): Pattern[] =>
  texts.map((text) => patternOf(text, lists));

function readyRules(rules: readonly EmergencyRule[], lists: WordLists): ReadyRule[] {
  return rules.map((rule) => ({
    id: rule.id,
    says: ready(rule.says, lists),
    unless: ready(rule.unless, lists),
  }));
}

interface LanguageRules {
  rules: ReadyRule[];
  longAgo: Pattern[];
  supposed: Pattern[];
  now: Pattern[];
}

const LANGUAGES: readonly LanguageRules[] = [
  {
    rules: readyRules(EMERGENCY_RULES_EN, EMERGENCY_LISTS_EN),
    longAgo: ready(LONG_AGO_EN, EMERGENCY_LISTS_EN),
    supposed: ready(SUPPOSED_EN, EMERGENCY_LISTS_EN),
    now: ready(NOW_EN, EMERGENCY_LISTS_EN),
  },
  {
    rules: readyRules(EMERGENCY_RULES_ES, EMERGENCY_LISTS_ES),
    longAgo: ready(LONG_AGO_ES, EMERGENCY_LISTS_ES),
    supposed: ready(SUPPOSED_ES, EMERGENCY_LISTS_ES),
    now: ready(NOW_ES, EMERGENCY_LISTS_ES),
  },
];

const isFound = (patterns: readonly Pattern[], tokens: readonly string[]): boolean =>
  patterns.some((pattern) => findAll(pattern, tokens).length > 0);

const overlaps = (one: Found, other: Found): boolean =>
  one.positions.some((position) => other.positions.includes(position));

/** What the rule finds and nothing in the same words takes back. */
function findingsOf(rule: ReadyRule, tokens: readonly string[]): Found[] {
  const excuses = rule.unless.flatMap((pattern) => findAll(pattern, tokens));
  return rule.says
    .flatMap((pattern) => findAll(pattern, tokens))
    .filter((found) => !isDenied(tokens, found) && !excuses.some((excuse) => overlaps(found, excuse)));
}

/** Words with which something else may begin to be told. */
const BREAKS = new Set([STOP, PAUSE, 'and', 'but', 'y', 'e', 'pero']);
/** Words of what is so now, in the clause that tells of it. */
const PRESENT = new Set(
  `is are am get gets feel feels smell smells see hear comes coming has have keeps going there s
  es esta estan hay siento sentimos huele huelo sale salen veo da`.split(/\s+/u),
);

/** The number of the clause that each token stands in. */
function clauseNumbers(tokens: readonly string[]): number[] {
  let clause = 0;
  return tokens.map((token) => (BREAKS.has(token) ? (clause += 1) : clause));
}

/**
 * Whether what was found is only supposed or long past. A worry, a question or an old repair in another clause takes
 * nothing back of what is told as it is now: "I feel a tingle, is that a risk?"
 */
function isTold(found: Found, { supposed, longAgo, now }: LanguageRules, tokens: readonly string[]): boolean {
  const numbers = clauseNumbers(tokens);
  const own = new Set(found.positions.map((at) => numbers[at]));
  const isBeside = ({ positions }: Found): boolean => positions.some((at) => own.has(numbers[at]));
  const foundOf = (patterns: readonly Pattern[]): Found[] =>
    patterns.flatMap((pattern) => findAll(pattern, tokens));
  if (foundOf(supposed).some(isBeside)) return false;
  const tales = isFound(now, tokens) ? [] : foundOf(longAgo);
  const isPresent = tokens.some((token, at) => own.has(numbers[at]) && PRESENT.has(token));
  return !tales.some((tale) => !isPresent || isBeside(tale));
}

function emergenciesIn(language: LanguageRules, tokens: readonly string[]): EmergencyId[] {
  return language.rules
    .filter((rule) => findingsOf(rule, tokens).some((found) => isTold(found, language, tokens)))
    .map((rule) => rule.id);
}

/**
 * The emergency that a message tells of, in either language, or undefined.
 * @param tokens the message as `wordsOf` gives it.
 */
export function emergencyIn(tokens: readonly string[]): EmergencyId | undefined {
  const told = new Set(LANGUAGES.flatMap((language) => emergenciesIn(language, tokens)));
  return PRECEDENCE.find((id) => told.has(id));
}
