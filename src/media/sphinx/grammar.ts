/** What may be said in answer to a question, as a grammar (JSGF) for the recogniser. */
import type { Measured } from '../../dialogues/event.ts';
import { QUANTITIES } from '../../knowledge/ids.ts';
import { NUMBER_RULES, SPOKEN_READINGS, VALUE_RULES } from '../english/readings.ts';
import {
  SPOKEN_ANSWERS,
  SPOKEN_COMMANDS,
  SPOKEN_EMERGENCIES,
  SPOKEN_FINDINGS,
  SPOKEN_PLACES,
} from '../english/replies.ts';
import type { Expecting } from '../recogniser.ts';

type Option = Expecting['options'][number];

/** Options that are said as commands, everywhere. */
const SAID_AS_COMMANDS: ReadonlySet<string> = new Set(['unsure', 'skip']);

/** A text as words to be said; undefined where it holds what is not a word. */
function spoken(label: string): string | undefined {
  const words = label
    .toLowerCase()
    .replaceAll('’', "'")
    .replace(/[.,;:!?“”"()/-]+/gu, ' ')
    .trim()
    .split(/\s+/u);
  return words.every((word) => /^[a-z']+$/u.test(word)) ? words.join(' ') : undefined;
}

function waysToChoose({ id, label }: Option): string[] {
  if (SAID_AS_COMMANDS.has(id)) return [];
  const said = [spoken(label), ...(SPOKEN_ANSWERS[id] ?? [])];
  return said.filter((phrase) => phrase !== undefined && phrase !== '') as string[];
}

function places(options: readonly Option[]): string[] {
  const count = options.filter(({ id }) => !SAID_AS_COMMANDS.has(id)).length;
  return count < 2 ? [] : SPOKEN_PLACES.slice(0, count).map((place) => `the ${place} one`);
}

/** Phrases for the present question and those that hold everywhere; no phrase twice. */
export function phrasesFor(expecting: Expecting | undefined): string[] {
  const options = expecting?.options ?? [];
  const chosen = options.flatMap(waysToChoose);
  // Where a number is wanted, "the second one" would be taken for it.
  const placed = expecting?.reading === undefined ? places(options) : [];
  return [...new Set([...chosen, ...placed, ...SPOKEN_COMMANDS, ...SPOKEN_EMERGENCIES])];
}

/** Readings by their names. Wheel turns are counted only when they are asked for. */
function named(asked: Measured | undefined): string {
  const given = [...QUANTITIES, 'flow' as const].filter(
    (quantity) => quantity !== 'wheel-turns' || quantity === asked,
  );
  return given
    .map((quantity) => `(${SPOKEN_READINGS[quantity].name}) [<link>] ${SPOKEN_READINGS[quantity].value}`)
    .join(' | ');
}

/** The asked reading by its number alone, as a range, or then and now; with a "no" where it can correct something. */
function bareReading(asked: Measured, isReadBack: boolean): string {
  const { value, number, units } = SPOKEN_READINGS[asked];
  return [
    `[it is | it says | it reads | the gauge says | about] ${value}`,
    ...(isReadBack ? [`(no | sorry) [it is] ${value}`] : []),
    `between ${number} and ${number} [${units}]`,
    `[it] was ${number} [and] now ${number} [${units}]`,
  ].join(' | ');
}

function sayable(phrases: readonly string[], isSayable: (word: string) => boolean): string[] {
  return phrases.filter((phrase) => phrase.split(' ').every(isSayable));
}

/**
 * The grammar for a question, without the phrases that hold a word for which `isSayable` says no. Several readings may
 * be given at once, whatever is asked.
 */
export function grammarFor(
  expecting: Expecting | undefined,
  isSayable: (word: string) => boolean = () => true,
): string {
  const phrases = sayable(phrasesFor(expecting), isSayable);
  // Checks can be left open; whatever else was seen is told in a case only.
  const isInCase = expecting?.options.some(({ id }) => id === 'unsure') ?? false;
  const asked = expecting?.reading;
  const isReadBack = expecting?.options.some(({ id }) => id === 'no') ?? false;
  const rules = {
    ...NUMBER_RULES,
    ...VALUE_RULES,
    link: 'is | at | reads | says | is at | about',
    named: named(asked),
    readings: `${isReadBack ? '[no | sorry] ' : ''}<named> [[and] <named>] [[and] <named>]`,
    ...(isInCase ? { finding: sayable(SPOKEN_FINDINGS, isSayable).join(' | ') } : {}),
    ...(asked === undefined ? {} : { bare: bareReading(asked, isReadBack) }),
    phrases: phrases.join(' | '),
  };
  const lines = Object.entries(rules).map(([name, body]) => `<${name}> = ${body};`);
  // With the value asked for, readings of others may follow it.
  const all = [
    ...(asked === undefined ? [] : ['<bare> [[and] <named>]']),
    '<readings>',
    '<phrases>',
    ...(isInCase ? ['<finding> [and (<finding> | <named>)]', '<named> and <finding>'] : []),
  ].join(' | ');
  return ['#JSGF V1.0;', 'grammar said;', ...lines, `public <said> = ${all};`, ''].join('\n');
}

/** Every word of a grammar. */
export function wordsIn(grammar: string): string[] {
  const bodies = grammar
    .split('\n')
    .filter((line) => line.includes('='))
    .map((line) => line.slice(line.indexOf('=') + 1));
  const words =
    bodies
      .join(' ')
      .replace(/<[^>]*>/gu, ' ')
      .match(/[a-z']+/gu) ?? [];
  return [...new Set(words)];
}
