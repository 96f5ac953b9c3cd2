/** Opus in and out, by the programs of `opus-tools`. */
import { readFile, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { runBounded, type Ran } from './bounded.ts';
import { LONGEST_S, SAMPLE_RATE } from './limits.ts';
import type { WhyUnheard } from './recogniser.ts';
import { samplesOf } from './wave.ts';

/** Decoding a minute takes some 100 ms. */
const DECODE_MS = 5_000;
/** Shorter than any word, seconds. */
const SHORTEST_S = 0.15;

/** Why a program that ended this way gave nothing; undefined where it did its work. */
export function failureOf(ran: Ran): WhyUnheard | undefined {
  switch (ran.came) {
    case 'missing':
      return 'missing';
    case 'slow':
      return 'slow';
    case 'broken':
      return ran.signal === 'SIGXFSZ' ? 'too-long' : 'not-audio';
    case 'ended':
      return undefined;
  }
}

/** The sound of an Opus file, one channel at `SAMPLE_RATE`; or why there is none. A damaged file gives what is whole. */
export async function decodedOpus(bytes: Buffer, folder: string): Promise<Int16Array | WhyUnheard> {
  const [from, to] = [join(folder, 'note.opus'), join(folder, 'note.wav')];
  await writeFile(from, bytes);
  const ran = await runBounded('opusdec', ['--quiet', '--rate', `${SAMPLE_RATE}`, from, to], {
    timeMs: DECODE_MS,
  });
  const failure = failureOf(ran);
  if (failure !== undefined) return failure;
  const wave = await readFile(to).catch(() => Buffer.alloc(0));
  const samples = samplesOf(wave);
  if (samples === undefined) return 'not-audio';
  if (samples.length > LONGEST_S * SAMPLE_RATE) return 'too-long';
  return samples.length < SHORTEST_S * SAMPLE_RATE ? 'nothing' : samples;
}
