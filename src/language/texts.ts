/** Every word a person reads, preloaded for all languages. */
import { readdirSync, readFileSync } from 'node:fs';
import type { TFunction } from 'i18next';
import { createInstance } from 'i18next';
import type { Locale } from '../dialogues/event.ts';
import { LOCALES } from '../dialogues/event.ts';

const ROOT = new URL('../../locales/', import.meta.url);

/** The texts of one language by namespace, as they stand in its folder. */
export function resourcesOf(locale: string): Record<string, Record<string, unknown>> {
  const folder = new URL(`${locale}/`, ROOT);
  const files = readdirSync(folder).filter((file) => file.endsWith('.json'));
  return Object.fromEntries(
    files.map((file) => [
      file.replace(/\.json$/, ''),
      JSON.parse(readFileSync(new URL(file, folder), 'utf8')) as Record<string, unknown>,
    ]),
  );
}

const resources = Object.fromEntries(LOCALES.map((locale) => [locale, resourcesOf(locale)]));
const i18n = createInstance();
await i18n.init({
  resources,
  ns: Object.keys(resources.en ?? {}),
  fallbackLng: 'en',
  interpolation: { escapeValue: false },
});

// A name that starts a sentence in one text stands in the middle of another.
i18n.services.formatter?.add('lower', (value: unknown) =>
  String(value).replace(/^./u, (first) => first.toLocaleLowerCase()),
);

const translators = new Map<Locale, TFunction>(LOCALES.map((locale) => [locale, i18n.getFixedT(locale)]));

/** Translates a key such as `app:internal` with its facts. */
export function translate(locale: Locale, key: string, facts: Record<string, string | number> = {}): string {
  return translators.get(locale)?.(key, facts) ?? key;
}
