/** Comparing the texts of two languages: keys, placeholders and plural forms. */

/** A tree of texts as it stands in a locale's file. */
export interface TextTree {
  [key: string]: string | TextTree;
}

/** Every text of a tree by its full key, such as `app:terminal.more`. */
export function flatTexts(namespace: string, tree: TextTree): Map<string, string> {
  const flat = new Map<string, string>();
  const walk = (prefix: string, branch: TextTree): void => {
    for (const [key, value] of Object.entries(branch))
      if (typeof value === 'string') flat.set(prefix + key, value);
      else walk(`${prefix}${key}.`, value);
  };
  walk(`${namespace}:`, tree);
  return flat;
}

/** Every text of a language by its full key. */
export function textsOf(namespaces: Record<string, TextTree>): Map<string, string> {
  return new Map(Object.entries(namespaces).flatMap(([name, tree]) => [...flatTexts(name, tree)]));
}

const PLURAL = /_(zero|one|two|few|many|other)$/;

/** The names of the placeholders of a text with their formats, sorted. */
export function placeholdersOf(text: string): string[] {
  return [...text.matchAll(/\{\{\s*([^}]+?)\s*\}\}/g)].map(([, name = '']) => name).sort();
}

function missing(from: Map<string, string>, to: Map<string, string>, locale: string): string[] {
  return [...from.keys()]
    .filter((key) => !PLURAL.test(key) && !to.has(key))
    .map((key) => `${key} is missing in ${locale}`);
}

function pluralGaps(texts: Map<string, string>, locale: string): string[] {
  const bases = new Set(
    [...texts.keys()].filter((key) => PLURAL.test(key)).map((key) => key.replace(PLURAL, '')),
  );
  const { pluralCategories } = new Intl.PluralRules(locale).resolvedOptions();
  return [...bases].flatMap((base) =>
    pluralCategories
      .filter((category) => !texts.has(`${base}_${category}`))
      .map((category) => `${base}_${category} is missing in ${locale}`),
  );
}

function baseKeys(texts: Map<string, string>): Set<string> {
  return new Set([...texts.keys()].filter((key) => PLURAL.test(key)).map((key) => key.replace(PLURAL, '')));
}

function pluralsInOne(one: Map<string, string>, other: Map<string, string>, locale: string): string[] {
  const there = baseKeys(other);
  return [...baseKeys(one)]
    .filter((base) => !there.has(base))
    .map((base) => `${base} has no plural forms in ${locale}`);
}

function otherPlaceholders(one: Map<string, string>, other: Map<string, string>, locale: string): string[] {
  return [...one].flatMap(([key, text]) => {
    const translated = other.get(key);
    if (translated === undefined) return [];
    const [wanted, found] = [text, translated].map((each) => placeholdersOf(each).join(' | '));
    return wanted === found
      ? []
      : [`${key} has {{${found ?? ''}}} in ${locale} instead of {{${wanted ?? ''}}}`];
  });
}

export interface Language {
  locale: string;
  texts: Map<string, string>;
}

/** Every difference between two languages, a line each; none where each has all of the other's texts. */
export function differences(one: Language, other: Language): string[] {
  return [
    ...missing(one.texts, other.texts, other.locale),
    ...missing(other.texts, one.texts, one.locale),
    ...pluralsInOne(one.texts, other.texts, other.locale),
    ...pluralsInOne(other.texts, one.texts, one.locale),
    ...pluralGaps(one.texts, one.locale),
    ...pluralGaps(other.texts, other.locale),
    ...otherPlaceholders(one.texts, other.texts, other.locale),
  ];
}
