/** Recognition on this machine, offline, in English: PocketSphinx with a grammar of what may be said. */
import { access } from 'node:fs/promises';
import { audioFile } from '../audio-file.ts';
import { soundAlikesOf } from '../english/sound-alikes.ts';
import { LONGEST_MS } from '../limits.ts';
import { decodedOpus } from '../opus.ts';
import { unheard, type About, type Hearing, type Recogniser, type WhyUnheard } from '../recogniser.ts';
import { frameLoudnessDb, loudnessSpreadDb } from '../wave.ts';
import { inWorkFolder } from '../work-folder.ts';
import { ACOUSTIC_MODEL, decoded, DICTIONARY, prepared, type Work } from './decode.ts';
import { readDictionary, type Dictionary } from './dictionary.ts';
import { grammarFor, wordsIn } from './grammar.ts';
import { confidenceOf, judged, LOWEST_FIT, NOISY_SPREAD_DB, QUIET_SPREAD_DB, type Judged } from './judge.ts';

/** Louder than this somewhere, or there is nothing to hear; decibels over one step of the scale. */
const LOUDEST_OF_SILENCE_DB = 25;

type Attempt = Judged | 'none' | WhyUnheard;

async function attempt(isQuiet: boolean, work: Work, until: number): Promise<Attempt> {
  const left = until - performance.now();
  if (left <= 0) return 'slow';
  const [words, phones] = await Promise.all([
    decoded('words', isQuiet, work, left),
    decoded('phones', isQuiet, work, left),
  ]);
  if (typeof words === 'string') return words;
  if (typeof phones === 'string') return phones;
  return judged(words.segments, phones.segments) ?? 'none';
}

function heard({ text, fit }: Judged, alternatives: readonly string[], noisy: boolean): Hearing {
  const others = [...new Set([...alternatives, ...soundAlikesOf(text)])].filter((other) => other !== text);
  return { kind: 'heard', text, alternatives: others, confidence: confidenceOf(fit), ...(noisy ? { noisy } : {}) };
}

/** Believes one decode, or two that agree. */
function believed(attempts: readonly Attempt[], noisy: boolean): Hearing {
  const [first, ...others] = attempts;
  if (first === undefined) return unheard('noise');
  if (typeof first === 'string') return unheard(first === 'none' ? 'noise' : first);
  if (first.fit < LOWEST_FIT) return unheard('noise');
  const agree = others.every((other) => typeof other !== 'string' && other.text === first.text);
  return agree ? heard(first, [], noisy) : unheard('noise');
}

async function listened(samples: Int16Array, about: About, dictionary: Dictionary, until: number): Promise<Hearing> {
  if (Math.max(...frameLoudnessDb(samples)) < LOUDEST_OF_SILENCE_DB) return unheard('nothing');
  const grammar = grammarFor(about.expecting, (word) => dictionary.has(word));
  const spread = loudnessSpreadDb(samples);
  return inWorkFolder(async (folder) => {
    const work = await prepared(folder, grammar, dictionary.linesFor(wordsIn(grammar)), samples);
    const first = await attempt(spread >= QUIET_SPREAD_DB, work, until);
    if (spread >= NOISY_SPREAD_DB || typeof first === 'string') return believed([first], false);
    return believed([first, await attempt(true, work, until)], true);
  });
}

/** Whether the acoustic model is installed. */
export async function hasModel(): Promise<boolean> {
  return access(ACOUSTIC_MODEL).then(
    () => true,
    () => false,
  );
}

/**
 * PocketSphinx with its American English model, as Debian packages them. Understands only what the grammar of the
 * present question holds; everything else is `noise`. About half a second a note.
 */
export function sphinxRecogniser(): Recogniser {
  let dictionary: Promise<Dictionary> | undefined;
  const recognise = async (file: string, about: About): Promise<Hearing> => {
    const until = performance.now() + LONGEST_MS;
    if (about.language !== 'en') return unheard('language');
    const audio = await audioFile(file);
    if (audio.is === 'refused') return unheard(audio.why);
    if (audio.kind !== 'opus') return unheard('not-audio');
    dictionary ??= readDictionary(DICTIONARY);
    const known = await dictionary.catch(() => undefined);
    if (known === undefined) {
      // It may be installed while the program runs.
      dictionary = undefined;
      return unheard('missing');
    }
    const samples = await inWorkFolder((folder) => decodedOpus(audio.bytes, folder));
    return typeof samples === 'string' ? unheard(samples) : listened(samples, about, known, until);
  };
  // A full disk or the like: the person is asked to type.
  return { recognise: (file, about) => recognise(file, about).catch(() => unheard('missing')) };
}
