/** The keys that the source asks for: whole ones, and the beginnings of those made up while running. */
import { readdirSync, readFileSync } from 'node:fs';

const SOURCE = new URL('../../src/', import.meta.url);

export interface UsedKey {
  /** Everything up to the first thing filled in. */
  start: string;
  /** The last thing that follows what is filled in, empty where nothing does. */
  end: string;
  whole: boolean;
  file: string;
}

/** Keys with their namespace, such as 'dialogue:unclear' or `faults:${id}.name`. */
const NAMESPACED = /(['`])((?:[a-z]+):[a-z][A-Za-z0-9_.${}()[\]?/ -]*|[a-z]+:\$\{[^`]*)\1/g;
/** Keys of the program's own words, asked for within their namespace. */
const OWN_WORDS = /\b(?:word|errorMessage)\((['`])([a-z][A-Za-z.-]*)\1/g;

function asUsed(key: string, file: string): UsedKey {
  const filled = key.indexOf('${');
  if (filled === -1) return { start: key, end: '', whole: true, file };
  return { start: key.slice(0, filled), end: key.slice(key.lastIndexOf('}') + 1), whole: false, file };
}

/** Every key that the source names in one of these namespaces. */
export function usedKeys(namespaces: readonly string[]): UsedKey[] {
  const files = readdirSync(SOURCE, { recursive: true, encoding: 'utf8' }).filter((file) =>
    file.endsWith('.ts'),
  );
  return files.flatMap((file) => {
    const source = readFileSync(new URL(file, SOURCE), 'utf8');
    const named = [...source.matchAll(NAMESPACED)].map(([, , key = '']) => key);
    const own = [...source.matchAll(OWN_WORDS)].map(([, , key = '']) => `app:${key}`);
    return [...named, ...own]
      .filter((key) => namespaces.includes(key.slice(0, key.indexOf(':'))))
      .map((key) => asUsed(key, file));
  });
}
