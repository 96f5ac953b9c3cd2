/** What of voice this machine can do: the programs are Debian packages and may not be there. */
import { access, constants } from 'node:fs/promises';
import { ACOUSTIC_MODEL, DICTIONARY } from './sphinx/decode.ts';

export type Ability = 'listening' | 'speaking';

/** Files that each ability needs and the Debian package that brings them. */
const NEEDS: Record<Ability, readonly { file: string; package: string }[]> = {
  listening: [
    { file: 'prlimit', package: 'util-linux' },
    { file: 'opusdec', package: 'opus-tools' },
    { file: 'pocketsphinx_batch', package: 'pocketsphinx' },
    { file: `${ACOUSTIC_MODEL}/mdef`, package: 'pocketsphinx-en-us' },
    { file: DICTIONARY, package: 'pocketsphinx-en-us' },
  ],
  speaking: [
    { file: 'prlimit', package: 'util-linux' },
    { file: 'espeak-ng', package: 'espeak-ng' },
    { file: 'opusenc', package: 'opus-tools' },
  ],
};

const FOLDERS = ['/usr/local/bin', '/usr/bin', '/bin'];

async function isThere(file: string): Promise<boolean> {
  const places = file.startsWith('/') ? [file] : FOLDERS.map((folder) => `${folder}/${file}`);
  const wanted = file.startsWith('/') ? constants.R_OK : constants.X_OK;
  const found = await Promise.all(
    places.map((place) =>
      access(place, wanted).then(
        () => true,
        () => false,
      ),
    ),
  );
  return found.includes(true);
}

/** Debian packages that are missing for this; empty where it can be done. Looks anew at each call. */
export async function missingPackages(ability: Ability): Promise<string[]> {
  const needs = NEEDS[ability];
  const there = await Promise.all(needs.map(({ file }) => isThere(file)));
  return [...new Set(needs.filter((_, at) => there[at] !== true).map((need) => need.package))];
}
