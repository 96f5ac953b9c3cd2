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

export function phrasesOf(locale: Locale): Phrase[] {
  const file = new URL(`phrases.${locale}.yaml`, import.meta.url);
  const lines = parse(readFileSync(file, 'utf8')) as [string, string, string][];
  return lines.map(([text, asked, meaning]) => ({ text, asked, meaning: meaning.replaceAll('"', '') }));
}

const readingText = ({ quantity, value, unit, unsteady, earlier }: SpokenReading): string =>
  `${quantity} ${value} ${unit}${unsteady === true ? ' unsteady' : ''}${earlier === true ? ' earlier' : ''}`;

/** What was understood, in the words of the phrase tables. */
export function meaningText(understood: Understood): string {
  switch (understood.kind) {
    case 'readings':
      return understood.readings.map(readingText).join('; ');
    case 'command':
      return `command ${understood.id}${understood.argument === undefined ? '' : ` ${understood.argument}`}`;
    case 'answer':
      return `answer ${understood.option}`;
    case 'unclear':
      return 'unclear';
    case 'emergency':
    case 'complaint':
      return `${understood.kind} ${understood.id}`;
  }
}

export function understoodText({ text, asked }: Phrase, locale: Locale): string {
  return meaningText(understand(text, askedFor(asked, locale), locale));
}
