/** One recording through `pocketsphinx_batch`: with a grammar, and with a loop of phones to judge it by. */
import { readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { runBounded } from '../bounded.ts';
import { failureOf } from '../opus.ts';
import type { WhyUnheard } from '../recogniser.ts';
import { segmentsIn, type Segment } from './segments.ts';

/** Where Debian puts the acoustic model (package `pocketsphinx-en-us`). */
const MODELS = '/usr/share/pocketsphinx/model/en-us';
export const ACOUSTIC_MODEL = join(MODELS, 'en-us');
export const DICTIONARY = join(MODELS, 'cmudict-en-us.dict');
export const PHONES = join(MODELS, 'en-us-phone.lm.bin');

/** Sound to decode, and the files that say how. All lie in one folder of their own. */
export interface Work {
  folder: string;
  grammar: string;
  dictionary: string;
  /** Raw samples, 16 bits. */
  sound: string;
}

/** Names of the files within the folder. */
const SOUND = 'sound';

/** Puts what the decodes need into a folder. */
export async function prepared(
  folder: string,
  grammar: string,
  dictionary: readonly string[],
  samples: Int16Array,
): Promise<Work> {
  const work = {
    folder,
    grammar: join(folder, 'said.gram'),
    dictionary: join(folder, 'said.dict'),
    sound: join(folder, `${SOUND}.raw`),
  };
  await Promise.all([
    writeFile(work.grammar, grammar),
    writeFile(work.dictionary, `${dictionary.join('\n')}\n`),
    writeFile(work.sound, Buffer.from(samples.buffer, samples.byteOffset, samples.byteLength)),
    writeFile(join(folder, 'list'), `${SOUND}\n`),
  ]);
  return work;
}

export interface Decoded {
  segments: Segment[];
}

/** What is sought: words of the grammar, or phones in any order. */
export type Sought = 'words' | 'phones';

const SEARCH: Record<Sought, (work: Work) => string[]> = {
  words: ({ grammar, dictionary }) => ['-jsgf', grammar, '-dict', dictionary],
  // A small weight leaves the phones free, so that the words have to fit well.
  phones: () => ['-allphone', PHONES, '-allphone_ci', 'yes', '-lw', '1'],
};

/** Noise and silence taken out first, or the recording as it is. */
export type Treated = 'cleaned' | 'as it is';

/**
 * Decodes a recording that is first treated. Gives the reason where the decoder is missing, is too slow or fails.
 */
export async function decoded(
  sought: Sought,
  treated: Treated,
  work: Work,
  timeMs: number,
): Promise<Decoded | WhyUnheard> {
  const out = join(work.folder, `${sought}-${treated === 'cleaned' ? 'cleaned' : 'whole'}`);
  const clean = treated === 'cleaned' ? 'yes' : 'no';
  const ran = await runBounded(
    'pocketsphinx_batch',
    [
      ...['-hmm', ACOUSTIC_MODEL, ...SEARCH[sought](work), '-compallsen', 'yes'],
      ...['-adcin', 'yes', '-adchdr', '0', '-cepdir', work.folder, '-cepext', '.raw'],
      ...['-ctl', join(work.folder, 'list'), '-remove_noise', clean, '-remove_silence', clean],
      ...['-hypseg', out, '-logfn', '/dev/null'],
    ],
    { timeMs },
  );
  const failure = failureOf(ran);
  if (failure !== undefined) return failure === 'not-audio' ? 'noise' : failure;
  const line = await readFile(out, 'utf8').catch(() => '');
  return { segments: segmentsIn(line) };
}
