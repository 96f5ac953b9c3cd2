/** Voice notes that whoever runs the bot wants kept for some days. Usually none are. */
import { DAY_MS } from '../calc/units.ts';
import { createHash, randomUUID } from 'node:crypto';
import { copyFile, mkdir, readdir, rm, stat } from 'node:fs/promises';
import { join } from 'node:path';

export interface KeptNotes {
  keep(file: string, person: string): Promise<void>;
  /** Removes what has been kept long enough. */
  prune(now: number): Promise<void>;
  /** Removes all notes of a person. */
  forget(person: string): Promise<void>;
}

/** Names of a person's notes begin so; the person cannot be read from it. */
const beginningFor = (person: string): string =>
  createHash('sha256').update(person).digest('hex').slice(0, 16);

async function filesIn(folder: string): Promise<string[]> {
  const names = await readdir(folder).catch((): string[] => []);
  return names.filter((name) => name.endsWith('.note'));
}

/** Notes kept in a folder for so many days; with 0 days none is kept and what was kept before goes. */
export function keptNotes(folder: string, days: number): KeptNotes {
  const remove = (name: string): Promise<void> => rm(join(folder, name), { force: true });
  return {
    keep: async (file, person) => {
      if (days === 0) return;
      await mkdir(folder, { recursive: true, mode: 0o700 });
      await copyFile(file, join(folder, `${beginningFor(person)}-${randomUUID()}.note`));
    },
    prune: async (now) => {
      for (const name of await filesIn(folder)) {
        const { mtimeMs } = await stat(join(folder, name)).catch(() => ({ mtimeMs: now }));
        if (now - mtimeMs >= days * DAY_MS) await remove(name);
      }
    },
    forget: async (person) => {
      const own = (await filesIn(folder)).filter((name) => name.startsWith(`${beginningFor(person)}-`));
      await Promise.all(own.map(remove));
    },
  };
}
