import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { LOCALES, type Asked } from '../../src/dialogues/event.ts';
import { EMERGENCY_IDS } from '../../src/knowledge/ids.ts';
import { understand } from '../../src/language/understanding/understand.ts';

interface Table {
  emergencies: Record<string, string[]>;
  nearMisses: string[];
}

const tableOf = (name: string): Table =>
  parse(readFileSync(new URL(`emergencies.${name}.yaml`, import.meta.url), 'utf8')) as Table;

const READING: Asked = {
  id: 'filter-pressure',
  reading: 'filter-pressure',
  options: [{ id: 'no-gauge', label: 'There is no gauge' }],
};

const LEAST = { en: 80, es: 60, mixed: 80 } as const;
const TABLES = ['en', 'es', 'mixed'] as const;

describe.each(TABLES)('emergencies: table %s', (name) => {
  const table = tableOf(name);
  const locales = LOCALES.filter((locale) => name === 'mixed' || locale === name);
  const phrases = Object.entries(table.emergencies).flatMap(([id, texts]) =>
    texts.map((text) => ({ id, text })),
  );

  it('has phrases enough for every emergency, and as many near misses', () => {
    expect(Object.keys(table.emergencies).sort()).toEqual([...EMERGENCY_IDS].sort());
    expect(phrases.length).toBeGreaterThanOrEqual(LEAST[name]);
    expect(table.nearMisses.length).toBeGreaterThanOrEqual(LEAST[name]);
  });

  it.each(phrases)(
    'should take "$text" for $id, whatever is being asked and whatever the language',
    ({ id, text }) => {
      for (const asked of [undefined, READING])
        for (const spoken of LOCALES)
          expect(understand(text, asked, spoken)).toEqual({ kind: 'emergency', id });
    },
  );

  it.each(table.nearMisses.map((text) => ({ text })))('should see no emergency in "$text"', ({ text }) => {
    for (const asked of [undefined, READING])
      for (const locale of locales) expect(understand(text, asked, locale).kind).not.toBe('emergency');
  });
});
