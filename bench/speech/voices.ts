/** Speech made by machine: the six voices of the bench, all synthetic. Sound is 16,000 samples a second. */
import { execFile } from 'node:child_process';
import { readFile, rm, writeFile } from 'node:fs/promises';
import { promisify } from 'node:util';
import { samplesOf } from '../../src/media/wave.ts';

const run = promisify(execFile);

/** A voice writes a text, said, to a WAVE file at whatever rate it has. */
type Say = (text: string, file: string) => Promise<unknown>;

const espeak =
  (voice: string, speed: string): Say =>
  (text, file) =>
    run('espeak-ng', ['-v', voice, '-s', speed, '-w', file, text]);
const flite =
  (voice: string): Say =>
  (text, file) =>
    run('flite', ['-voice', voice, '-t', text, '-o', file]);
const festival: Say = async (text, file) => {
  await writeFile(`${file}.txt`, text);
  await run('text2wave', ['-o', file, `${file}.txt`]);
  await rm(`${file}.txt`);
};

export const VOICES: Readonly<Record<string, Say>> = {
  'espeak-ng en-us': espeak('en-us', '150'),
  'espeak-ng en-us+f3': espeak('en-us+f3', '160'),
  'flite slt': flite('slt'),
  'flite rms': flite('rms'),
  'flite awb': flite('awb'),
  'festival kal': festival,
};

/** Letters that are said one by one. */
const spelled = (text: string): string => text.replace(/\bpsi\b/g, 'P. S. I.');

/** A text said by a voice. `scratch` names files that are removed again. */
export async function said(voice: string, text: string, scratch: string): Promise<Int16Array> {
  const say = VOICES[voice];
  if (say === undefined) throw new Error(`No voice ${voice}`);
  const [raw, even] = [`${scratch}.raw.wav`, `${scratch}.wav`];
  await say(spelled(text), raw);
  await run('sox', ['-V1', raw, '-r', '16000', '-c', '1', '-b', '16', even]);
  const samples = samplesOf(await readFile(even));
  await Promise.all([rm(raw), rm(even)]);
  if (samples === undefined) throw new Error(`${voice} gave no sound for “${text}”`);
  return samples;
}

/** An Opus file of the samples, at a bit rate as voice notes have it. */
export async function asOpus(samples: Int16Array, file: string): Promise<void> {
  const bytes = Buffer.from(samples.buffer, samples.byteOffset, samples.byteLength);
  await writeFile(`${file}.raw`, bytes);
  await run('opusenc', [
    ...['--quiet', '--raw', '--raw-rate', '16000', '--raw-chan', '1', '--bitrate', '24'],
    `${file}.raw`,
    file,
  ]);
  await rm(`${file}.raw`);
}
