import { readFileSync } from 'node:fs';
import { parse } from 'yaml';
import type { Locale, SpokenReading, Understood } from '../../src/dialogues/event.ts';
import { understand } from '../../src/language/understanding/understand.ts';
import { askedFor } from './asked.ts';

export interface Phrase {
  text: string;
  asked: string;
  meaning: string;
}

type Line = [string, string, string];

const contentOf = (name: string): unknown =>
  parse(readFileSync(new URL(`phrases.${name}.yaml`, import.meta.url), 'utf8'));

/** The table of a language: half for building, half for scoring. */
export const phrasesOf = (locale: Locale): Phrase[] => asPhrases(contentOf(locale) as Line[]);

/** Phrases of which every one must be understood. */
export const checkedPhrasesOf = (locale: Locale): Phrase[] =>
  asPhrases((contentOf('checked') as Record<Locale, Line[]>)[locale]);

function asPhrases(lines: readonly Line[]): Phrase[] {
  return lines.map(([text, asked, meaning]) => ({ text, asked, meaning: meaning.replaceAll('"', '') }));
}

const readingText = ({ quantity, value, unit, unsteady, earlier }: SpokenReading): string =>
  `${quantity} ${value} ${unit}${unsteady === true ? ' unsteady' : ''}${earlier === true ? ' earlier' : ''}`;

/** What was understood, in the words of the phrase tables. */
export function meaningText(understood: Understood): string {
  switch (understood.kind) {
    case 'readings':
      return understood.readings.map(readingText).join('; ');
    case 'findings':
    case 'trouble':
      return [
        ...(understood.kind === 'trouble' ? [`complaint ${understood.complaint}`] : []),
        ...understood.readings.map(readingText),
        ...understood.findings.map(({ check, outcome }) => `${check} ${outcome}`),
      ].join('; ');
    case 'command':
      return `command ${understood.id}${understood.argument === undefined ? '' : ` ${understood.argument}`}`;
    case 'answer':
      return `answer ${understood.option}`;
    case 'unclear':
      return 'unclear';
    case 'act':
    case 'file':
    case 'closing':
      return understood.kind;
    case 'emergency':
    case 'complaint':
      return `${understood.kind} ${understood.id}`;
  }
}

export function understoodText({ text, asked }: Phrase, locale: Locale): string {
  return meaningText(understand(text, askedFor(asked, locale), locale));
}
