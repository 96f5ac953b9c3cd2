/** Folders for the files of one piece of work. */
import { mkdtemp, readdir, rm, stat } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

const PREFIX = 'padside-voice-';
/** Far longer than any piece of work takes: what is older was left by a process that was killed. */
const LEFT_BEHIND_MS = 3_600_000;

/** Does the work in a folder of its own, which only this user can read and which is gone afterwards, whatever comes. */
export async function inWorkFolder<T>(work: (folder: string) => Promise<T>): Promise<T> {
  const folder = await mkdtemp(join(tmpdir(), PREFIX));
  try {
    return await work(folder);
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

/** Removes the folders of processes that were killed while at work. Call it when the program starts. */
export async function removeLeftFolders(now: number): Promise<void> {
  const names = await readdir(tmpdir());
  for (const name of names.filter((entry) => entry.startsWith(PREFIX))) {
    const folder = join(tmpdir(), name);
    const { mtimeMs } = await stat(folder).catch(() => ({ mtimeMs: now }));
    if (now - mtimeMs > LEFT_BEHIND_MS)
      await rm(folder, { recursive: true, force: true }).catch(() => undefined);
  }
}
