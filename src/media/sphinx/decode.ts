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

/** The files that say how to decode. All lie in one folder of their own. */
export interface Work {
  folder: string;
  grammar: string;
  dictionary: string;
}

/** Puts what the decodes need into a folder. */
export async function prepared(
  folder: string,
  grammar: string,
  dictionary: readonly string[],
): Promise<Work> {
  const work = { folder, grammar: join(folder, 'said.gram'), dictionary: join(folder, 'said.dict') };
  await Promise.all([
    writeFile(work.grammar, grammar),
    writeFile(work.dictionary, `${dictionary.join('\n')}\n`),
  ]);
  return work;
}

/** A sound to decode, by the name of its files. */
export interface Sound {
  name: string;
}

/** Puts a sound beside the rest. */
export async function withSound(work: Work, name: string, samples: Int16Array): Promise<Sound> {
  const bytes = Buffer.from(samples.buffer, samples.byteOffset, samples.byteLength);
  await Promise.all([
    writeFile(join(work.folder, `${name}.raw`), bytes),
    writeFile(join(work.folder, `${name}.list`), `${name}\n`),
  ]);
  return { name };
}

export interface Decoded {
  segments: Segment[];
}

/** What is sought: words of the grammar, or phones in any order. */
export type Sought = 'words' | 'phones';

/** Wider than usual: in noise the right words are often behind for a while. */
const BEAMS = ['-beam', '1e-80', '-wbeam', '1e-60', '-pbeam', '1e-80'];

const SEARCH: Record<Sought, (work: Work) => string[]> = {
  words: ({ grammar, dictionary }) => ['-jsgf', grammar, '-dict', dictionary, ...BEAMS],
  // A small weight leaves the phones free, so that the words have to fit well.
  phones: () => ['-allphone', PHONES, '-allphone_ci', 'yes', '-lw', '1'],
};

/**
 * Decodes a sound as it is: the decoder's own ways with noise and silence cost words where it is quiet, and help less
 * than a filter beforehand where it is not. Gives the reason where the decoder is missing, is too slow or fails.
 */
export async function decoded(
  sought: Sought,
  { name }: Sound,
  work: Work,
  timeMs: number,
): Promise<Decoded | WhyUnheard> {
  const out = join(work.folder, `${name}-${sought}`);
  const ran = await runBounded(
    'pocketsphinx_batch',
    [
      ...['-hmm', ACOUSTIC_MODEL, ...SEARCH[sought](work), '-compallsen', 'yes'],
      ...['-adcin', 'yes', '-adchdr', '0', '-cepdir', work.folder, '-cepext', '.raw'],
      ...['-ctl', join(work.folder, `${name}.list`), '-remove_noise', 'no', '-remove_silence', 'no'],
      ...['-hypseg', out, '-logfn', '/dev/null'],
    ],
    { timeMs },
  );
  const failure = failureOf(ran);
  if (failure !== undefined) return failure === 'not-audio' ? 'noise' : failure;
  const line = await readFile(out, 'utf8').catch(() => '');
  return { segments: segmentsIn(line) };
}
