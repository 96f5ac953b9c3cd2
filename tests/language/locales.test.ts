/** Every language has every word: the same keys, placeholders and plural forms, and words for all of the trade. */
import { describe, expect, it } from 'vitest';
import { LOCALES } from '../../src/dialogues/event.ts';
import {
  CAUTION_IDS,
  CHECK_IDS,
  COMPLAINT_IDS,
  DEEPER_CAUSE_IDS,
  EMERGENCY_IDS,
  FAULT_IDS,
} from '../../src/knowledge/ids.ts';
import { EQUIPMENT, EQUIPMENT_KEYS } from '../../src/knowledge/schema.ts';
import { checkById } from '../../src/knowledge/trade.ts';
import { resourcesOf } from '../../src/language/texts.ts';
import type { TextTree } from './locales.ts';
import { differences, placeholdersOf, textsOf } from './locales.ts';
import { usedKeys } from './used-keys.ts';

/** Longest label that a button on a narrow phone still shows whole. Common practice, no source. */
const LONGEST_LABEL = 30;

const language = (locale: string): { locale: string; texts: Map<string, string> } => ({
  locale,
  texts: textsOf(resourcesOf(locale) as Record<string, TextTree>),
});
const english = language('en');
const spanish = language('es');

/** Keys that the ids of the trade call for. */
function wordsOfTheTrade(): string[] {
  const each = (namespace: string, ids: readonly string[], ...parts: string[]): string[] =>
    ids.flatMap((id) => parts.map((part) => `${namespace}:${id}.${part}`));
  return [
    ...each('faults', FAULT_IDS, 'name', 'owner', 'bring', 'repair'),
    ...each('cautions', CAUTION_IDS, 'name', 'text'),
    ...each('complaints', COMPLAINT_IDS, 'label', 'name'),
    ...each('emergencies', EMERGENCY_IDS, 'text'),
    ...DEEPER_CAUSE_IDS.map((id) => `afterwards:deeper.${id}`),
    ...each('equipment', EQUIPMENT_KEYS, 'name', 'ask'),
    ...EQUIPMENT_KEYS.flatMap((key) => EQUIPMENT[key].map((value) => `equipment:${key}.options.${value}`)),
    ...each('checks', CHECK_IDS, 'name', 'ask'),
    ...CHECK_IDS.flatMap((id) => {
      const { outcomes, silent } = checkById(id);
      const all = [...outcomes, ...silent];
      return [
        ...all.map((outcome) => `checks:${id}.outcomes.${outcome}`),
        ...all.map((outcome) => `checks:${id}.found.${outcome}`),
      ];
    }),
    'faults:something-else.name',
  ];
}

/** Keys of texts that stand on a button. */
function isLabel(key: string): boolean {
  return (
    /^complaints:.*\.label$/.test(key) ||
    /^checks:.*\.outcomes\./.test(key) ||
    /^equipment:.*\.options\./.test(key) ||
    /^dialogue:(option|role|language)\.(?!ask)/.test(key) ||
    /^dialogue:repair\.(worked|not-yet|cannot)$/.test(key)
  );
}

function changed(
  texts: Map<string, string>,
  change: (copy: Map<string, string>) => void,
): Map<string, string> {
  const copy = new Map(texts);
  change(copy);
  return copy;
}

describe('the languages', () => {
  it('should each have all the words of the other', () => {
    expect(differences(english, spanish)).toEqual([]);
  });

  it('should be English and Spanish', () => {
    expect(LOCALES).toEqual(['en', 'es']);
  });
});

describe.each([english, spanish])('the words in $locale', ({ texts }) => {
  it('should name everything of the trade', () => {
    expect(wordsOfTheTrade().filter((key) => (texts.get(key) ?? '') === '')).toEqual([]);
  });

  it('should have every key that the source names', () => {
    const keys = [...texts.keys()];
    const used = usedKeys([
      'app',
      'dialogue',
      'checks',
      'faults',
      'cautions',
      'complaints',
      'emergencies',
      'equipment',
      'units',
      'company',
      'afterwards',
      'report',
    ]);
    expect(used.length).toBeGreaterThan(80);
    const absent = used.filter(({ start, end, whole }) =>
      whole ? !texts.has(start) : !keys.some((key) => key.startsWith(start) && key.endsWith(end)),
    );
    expect(absent).toEqual([]);
  });

  it('should keep labels short enough for a button', () => {
    const long = [...texts].filter(([key, text]) => isLabel(key) && text.length > LONGEST_LABEL);
    expect(long).toEqual([]);
  });

  it('should give no two outcomes of a check the same label', () => {
    const twice = CHECK_IDS.filter((id) => {
      const { outcomes, silent } = checkById(id);
      const labels = [...outcomes, ...silent].map((outcome) => texts.get(`checks:${id}.outcomes.${outcome}`));
      return new Set(labels).size < labels.length;
    });
    expect(twice).toEqual([]);
  });

  it('should leave no text empty or with a space at its ends', () => {
    expect([...texts].filter(([, text]) => text === '' || text !== text.trim())).toEqual([]);
  });
});

describe('comparing two languages', () => {
  const other = (texts: Map<string, string>): { locale: string; texts: Map<string, string> } => ({
    locale: 'es',
    texts,
  });

  it.each(['dialogue:unclear', 'faults:hose-split.owner', 'app:terminal.more'])(
    'should see that %s is missing',
    (key) => {
      const without = changed(spanish.texts, (copy) => copy.delete(key));
      expect(differences(english, other(without))).toEqual([`${key} is missing in es`]);
    },
  );

  it('should see a key that only the other language has', () => {
    const more = changed(spanish.texts, (copy) => copy.set('app:new', 'nuevo'));
    expect(differences(english, other(more))).toEqual(['app:new is missing in en']);
  });

  it('should see another placeholder, or another format of it', () => {
    const key = 'dialogue:pool.none-called';
    expect(placeholdersOf(english.texts.get(key) ?? '')).toEqual(['name']);
    const wrong = changed(spanish.texts, (copy) => copy.set(key, 'No hay {{nombre}}'));
    expect(differences(english, other(wrong))).toEqual([`${key} has {{nombre}} in es instead of {{name}}`]);
    const step = changed(spanish.texts, (copy) => copy.set('app:terminal.step', 'Paso {{step}}'));
    expect(differences(english, other(step))).toHaveLength(1);
  });

  it('should see a plural form that is missing', () => {
    const one = changed(english.texts, (copy) => copy.set('app:n_one', 'a').set('app:n_other', 'b'));
    const none = { locale: 'es', texts: spanish.texts };
    expect(differences({ locale: 'en', texts: one }, none)).toEqual(['app:n has no plural forms in es']);
    const lame = changed(spanish.texts, (copy) => copy.set('app:n_one', 'a').set('app:n_many', 'b'));
    expect(differences({ locale: 'en', texts: one }, other(lame))).toEqual(['app:n_other is missing in es']);
  });
});
