/**
 * Prints how well voice notes are understood: utterances in six synthetic voices through Opus, quiet and in invented
 * pump noise, and unrelated sentences that must not be taken for anything. All voices are synthetic; people will
 * differ. Run it on a quiet machine.
 *
 *   npm run bench:voice                     the whole table; an hour on two cores
 *   npm run bench:voice -- --every 5        every fifth utterance of each half
 *   npm run bench:voice -- --half tuning    only the half for tuning, with --show each note that was not made out
 *   npm run bench:voice -- --lanes 1        one note at a time, as one person sends them: for the time a note takes
 *   npm run bench:voice -- --fuzz           10,000 damaged files instead (--files N for another number)
 */
import { mkdtemp, readFile, rm, unlink, writeFile } from 'node:fs/promises';
import { availableParallelism, tmpdir } from 'node:os';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { missingPackages } from '../src/media/capability.ts';
import type { Hearing } from '../src/media/recogniser.ts';
import { sphinxRecogniser } from '../src/media/sphinx/recogniser.ts';
import { damaged } from './speech/damage.ts';
import { peakMemories } from './speech/memory.ts';
import { inNoise, randomFrom } from './speech/noise.ts';
import { falselyAccepted, outcomeOf } from './speech/outcome.ts';
import { questionFor } from './speech/questions.ts';
import { counted, noCounts, RATIOS, table, times, type Counts } from './speech/tally.ts';
import { UNRELATED, UTTERANCES } from './speech/utterances.ts';
import { asOpus, said, VOICES } from './speech/voices.ts';

const { values: options } = parseArgs({
  options: {
    every: { type: 'string', default: '1' },
    half: { type: 'string', default: 'both' },
    lanes: { type: 'string', default: String(availableParallelism()) },
    fuzz: { type: 'boolean', default: false },
    files: { type: 'string', default: '10000' },
    show: { type: 'boolean', default: false },
  },
});

const HALVES = ['for tuning', 'only scored'] as const;
/** Which halves are listened to. */
const WANTED: readonly number[] = { both: [0, 1], tuning: [0], scored: [1] }[options.half] ?? [0, 1];
const recogniser = sphinxRecogniser();
const voices = Object.keys(VOICES);
const took: number[] = [];
const counts: Counts[][] = HALVES.map(() => RATIOS.map(() => noCounts()));

/** One text in one voice at every noise. Unrelated texts take the question of some utterance. */
interface Take {
  text: string;
  asked: string;
  voice: string;
  half: number;
  seed: number;
  related: boolean;
}

function takes(every: number): Take[] {
  const kept = (index: number): boolean => Math.floor(index / 2) % every === 0 && WANTED.includes(index % 2);
  const related = UTTERANCES.flatMap(({ said: text, asked }, index) =>
    kept(index)
      ? voices.map((voice, at) => ({
          text,
          asked,
          voice,
          half: index % 2,
          seed: index * 31 + at,
          related: true,
        }))
      : [],
  );
  const unrelated = UNRELATED.flatMap((text, index) => {
    const asked = UTTERANCES[(index * 5) % UTTERANCES.length]?.asked ?? '-';
    const voice = voices[index % voices.length] ?? '';
    return kept(index) ? [{ text, asked, voice, half: index % 2, seed: index * 31, related: false }] : [];
  });
  return [...related, ...unrelated];
}

async function hearing(file: string, asked: string): Promise<Hearing> {
  const began = performance.now();
  const heard = await recogniser.recognise(file, { language: 'en', expecting: questionFor(asked) });
  took.push(performance.now() - began);
  return heard;
}

function count(take: Take, heard: Hearing, at: number): void {
  const here = counts[take.half]?.[at];
  if (here === undefined) return;
  const outcome = outcomeOf(take.text, take.asked, heard);
  if (take.related) counted(here, outcome);
  else {
    here.unrelated += 1;
    if (falselyAccepted(take.asked, heard)) here.falselyAccepted += 1;
  }
  if (options.show && (take.related ? outcome !== 'right' : heard.kind === 'heard'))
    console.log([RATIOS[at] ?? 'none', take.voice, take.asked, take.text, JSON.stringify(heard)].join(' | '));
}

async function listened(take: Take, folder: string, name: string): Promise<void> {
  const speech = await said(take.voice, take.text, join(folder, name));
  for (const [at, ratio] of RATIOS.entries()) {
    const file = join(folder, `${name}.ogg`);
    await asOpus(inNoise(speech, ratio, take.seed), file);
    count(take, await hearing(file, take.asked), at);
    await unlink(file);
  }
}

/** Does the work in so many lanes. */
async function inLanes<T>(
  work: readonly T[],
  each: (item: T, index: number) => Promise<void>,
): Promise<void> {
  let next = 0;
  const lane = async (): Promise<void> => {
    while (next < work.length) {
      const index = next;
      next += 1;
      await each(work[index] as T, index);
      if (index % 100 === 99) process.stderr.write(`${index + 1} of ${work.length}\n`);
    }
  };
  await Promise.all(Array.from({ length: Number(options.lanes) }, lane));
}

async function understanding(folder: string): Promise<void> {
  const all = takes(Number(options.every));
  await inLanes(all, (take, index) => listened(take, folder, `take-${index}`));
  for (const half of WANTED) console.log(`${table(`Half ${HALVES[half]}`, counts[half] ?? [])}\n`);
  console.log('Goals: right at least / wrong but accepted at most / false accepts at most, per cent.');
  console.log(`A note, with ${options.lanes} at a time: ${times(took)}`);
  console.log(`Peak memory of the programs: ${await peakMemories(folder)}`);
  console.log(`All ${voices.length} voices are synthetic (${voices.join(', ')}); the noise is invented.`);
}

async function fuzz(folder: string): Promise<void> {
  const whole = join(folder, 'whole.ogg');
  await asOpus(inNoise(await said('flite slt', 'twenty two psi', whole), undefined, 1), whole);
  const note = await readFile(whole);
  const random = randomFrom(20);
  const files = Array.from({ length: Number(options.files) }, (_, index) => index);
  const came = new Map<string, number>();
  await inLanes(files, async (index) => {
    const file = join(folder, `bad-${index}`);
    await writeFile(file, damaged(note, random));
    const heard = await hearing(file, 'filter-pressure');
    const what = heard.kind === 'heard' ? 'heard' : heard.why;
    came.set(what, (came.get(what) ?? 0) + 1);
    await unlink(file);
  });
  console.log(`${files.length} damaged files: ${[...came].map(([what, n]) => `${what} ${n}`).join(', ')}`);
  console.log(`A file: ${times(took)}`);
}

const missing = await missingPackages('listening');
if (missing.length > 0) {
  console.error(`Missing Debian packages: ${missing.join(', ')}; also needed: espeak-ng flite festival sox`);
  process.exitCode = 1;
} else {
  const folder = await mkdtemp(join(tmpdir(), 'padside-bench-'));
  await (options.fuzz ? fuzz(folder) : understanding(folder)).finally(() =>
    rm(folder, { recursive: true, force: true }),
  );
}
