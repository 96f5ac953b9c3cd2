import { COMMANDS, type Asked, type CommandId, type Understood } from '../../dialogues/event.ts';
import { foldedText } from './clean.ts';
import { isExactLabel } from './labels.ts';
import { findAll, patternOf, type Pattern } from './pattern.ts';
import { isWord } from './words-of.ts';
import { COMMAND_PHRASES_EN, COURTESIES_EN, POOL_OPENINGS_EN } from './words/en/commands.ts';
import { COMMAND_PHRASES_ES, COURTESIES_ES, POOL_OPENINGS_ES } from './words/es/commands.ts';
import { LANGUAGE_NAMES, SPANISH_SLASHES } from './words/slash.ts';

type Command = Extract<Understood, { kind: 'command' }>;

/** A message with more words than this is no command, whatever it begins with. */
const MOST_WORDS = 10;

const isCommand = (id: string): id is CommandId => (COMMANDS as readonly string[]).includes(id);

const PHRASES: readonly { id: CommandId; pattern: Pattern }[] = [
  COMMAND_PHRASES_EN,
  COMMAND_PHRASES_ES,
].flatMap((table) =>
  COMMANDS.flatMap((id) => (table[id] ?? []).map((text) => ({ id, pattern: patternOf(`^ ${text} $`, {}) }))),
);

const POOL_OPENINGS = [...POOL_OPENINGS_EN, ...POOL_OPENINGS_ES].map((text) => patternOf(`^ ${text}`, {}));

const LANGUAGE_WORDS = Object.keys(LANGUAGE_NAMES).filter((name) => name.length > 2);
const LANGUAGE_REQUESTS = [
  `speak|talk|use|habla|hablar|habla|hablame|usa|cambia|switch|change ~2 ${LANGUAGE_WORDS.join('|')}`,
  `in|en|to|a ${LANGUAGE_WORDS.join('|')}`,
  `language|idioma ~1 ${LANGUAGE_WORDS.join('|')}`,
  LANGUAGE_WORDS.join('|'),
].map((text) => patternOf(`^ ${text} $`, {}));

const COURTESIES = new Set(`${COURTESIES_EN} ${COURTESIES_ES}`.split(/\s+/u));

const withArgument = (id: CommandId, argument: string): Command =>
  argument === '' ? { kind: 'command', id } : { kind: 'command', id, argument };

/** "es" for "Español"; what is no known language is passed on as said. */
function languageArgument(said: string): string {
  const folded = foldedText(said);
  return Object.hasOwn(LANGUAGE_NAMES, folded) ? (LANGUAGE_NAMES[folded] ?? said) : said;
}

/** "On" and "off" in either language; anything else is passed on as said. */
function speechArgument(said: string): string {
  const folded = foldedText(said);
  if (['on', 'yes', 'si', 'encendida', 'activada'].includes(folded)) return 'on';
  return ['off', 'no', 'apagada', 'desactivada'].includes(folded) ? 'off' : said;
}

function slashCommand(visible: string): Command | undefined {
  const parts = /^\/([\p{L}_]+)(?:@\S+)?(?:\s+(.*))?$/su.exec(visible);
  if (parts === null) return undefined;
  const name = foldedText(parts[1] ?? '');
  const id = isCommand(name)
    ? name
    : Object.hasOwn(SPANISH_SLASHES, name)
      ? SPANISH_SLASHES[name]
      : undefined;
  if (id === undefined) return undefined;
  const argument = (parts[2] ?? '').trim();
  if (id === 'voice') return withArgument(id, speechArgument(argument));
  return withArgument(id, id === 'language' ? languageArgument(argument) : argument);
}

/** The words without courtesies at either end. */
function bareWords(words: readonly string[]): string[] {
  let start = 0;
  let end = words.length;
  while (start < end && COURTESIES.has(words[start] ?? '')) start += 1;
  while (end > start && COURTESIES.has(words[end - 1] ?? '')) end -= 1;
  return words.slice(start, end);
}

function phraseCommand(words: readonly string[]): CommandId | undefined {
  return PHRASES.find(({ pattern }) => findAll(pattern, words).length > 0)?.id;
}

function languageCommand(words: readonly string[]): Command | undefined {
  const isAsked = LANGUAGE_REQUESTS.some((pattern) => findAll(pattern, words).length > 0);
  const name = words.find((word) => LANGUAGE_WORDS.includes(word));
  return isAsked && name !== undefined ? withArgument('language', languageArgument(name)) : undefined;
}

const SPEECH_ON = [
  'voice|speech on|mode?',
  'hands free ~1',
  'speak|talk to? me',
  'read it? aloud',
  'voz activada|encendida',
  'activa|enciende|pon la? voz',
  'manos libres',
  'habla|hablame en voz alta',
].map((text) => patternOf(`^ ${text} $`, {}));
const SPEECH_OFF = [
  'voice|speech off',
  'text only',
  'stop speaking|talking aloud?',
  'do not speak|talk',
  'voz desactivada|apagada',
  'apaga|desactiva|quita la? voz',
  'solo texto',
].map((text) => patternOf(`^ ${text} $`, {}));

function speechCommand(words: readonly string[]): Command | undefined {
  const isSaid = (patterns: readonly Pattern[]): boolean =>
    patterns.some((pattern) => findAll(pattern, words).length > 0);
  if (isSaid(SPEECH_OFF)) return withArgument('voice', 'off');
  return isSaid(SPEECH_ON) ? withArgument('voice', 'on') : undefined;
}

/** "Switch to pool Casa": the name as the person wrote it. "Pool" with more words is a command only so opened. */
function poolCommand(visible: string, words: readonly string[]): Command | undefined {
  const opening = POOL_OPENINGS.flatMap((pattern) => findAll(pattern, words)).at(0);
  const last = opening?.positions.at(-1);
  if (last === undefined) return undefined;
  const isOpenedByVerb = (opening?.positions.length ?? 0) > 1;
  const rest = words.slice(last + 1);
  if (!isOpenedByVerb && rest.length > 0) return undefined;
  return withArgument(
    'pool',
    rest.length === 0 ? '' : visible.trim().split(/\s+/u).slice(-rest.length).join(' '),
  );
}

function spokenCommand(visible: string, words: readonly string[]): Command | undefined {
  if (words.length === 0 || words.length > MOST_WORDS) return undefined;
  const bare = bareWords(words);
  const id = phraseCommand(words) ?? phraseCommand(bare);
  if (id !== undefined) return { kind: 'command', id };
  return languageCommand(bare) ?? speechCommand(bare) ?? poolCommand(visible, bare);
}

/**
 * The command that a message is, if it is nothing else: `/why`, or the whole message in natural words of either
 * language. An option's own label is an answer, not a command, unless the option is itself that command.
 * @param visible the message as `visibleText` gives it: arguments keep their spelling.
 */
export function commandIn(
  visible: string,
  tokens: readonly string[],
  asked: Asked | undefined,
): Command | undefined {
  if (visible.startsWith('/')) return slashCommand(visible);
  const words = tokens.filter(isWord);
  const label = asked?.options.find((option) => isExactLabel(words, option));
  if (label !== undefined) return isCommand(label.id) ? { kind: 'command', id: label.id } : undefined;
  return spokenCommand(visible, words);
}
