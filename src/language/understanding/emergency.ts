import type { EmergencyId } from '../../knowledge/ids.ts';
import type { EmergencyRule } from './emergency-rule.ts';
import { isDenied } from './negation.ts';
import { findAll, patternOf, type Found, type Pattern, type WordLists } from './pattern.ts';
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

function applies(rule: ReadyRule, tokens: readonly string[]): boolean {
  const findings = rule.says
    .flatMap((pattern) => findAll(pattern, tokens))
    .filter((found) => !isDenied(tokens, found));
  if (findings.length === 0) return false;
  const excuses = rule.unless.flatMap((pattern) => findAll(pattern, tokens));
  return findings.some((found) => !excuses.some((excuse) => overlaps(found, excuse)));
}

function emergenciesIn(language: LanguageRules, tokens: readonly string[]): EmergencyId[] {
  const ids = language.rules.filter((rule) => applies(rule, tokens)).map((rule) => rule.id);
  if (ids.length === 0) return [];
  if (isFound(language.supposed, tokens)) return [];
  const isTale = isFound(language.longAgo, tokens) && !isFound(language.now, tokens);
  return isTale ? [] : ids;
}

/**
 * The emergency that a message tells of, in either language, or undefined.
 * @param tokens the message as `wordsOf` gives it.
 */
export function emergencyIn(tokens: readonly string[]): EmergencyId | undefined {
  const told = new Set(LANGUAGES.flatMap((language) => emergenciesIn(language, tokens)));
  return PRECEDENCE.find((id) => told.has(id));
}
