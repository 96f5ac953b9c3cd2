/** Recognition on this machine, offline, in English: PocketSphinx with a grammar of what may be said. */
import { audioFile } from '../audio-file.ts';
import { soundAlikesOf } from '../english/sound-alikes.ts';
import { LONGEST_MS } from '../limits.ts';
import { decodedOpus } from '../opus.ts';
import { quieted } from '../quieting.ts';
import { unheard, type About, type Hearing, type Recogniser, type WhyUnheard } from '../recogniser.ts';
import { frameLoudnessDb, loudnessSpreadDb } from '../wave.ts';
import { inWorkFolder } from '../work-folder.ts';
import { decoded, DICTIONARY, prepared, withSound, type Sound, type Work } from './decode.ts';
import { readDictionary, type Dictionary } from './dictionary.ts';
import { grammarFor, wordsIn } from './grammar.ts';
import {
  confidenceOf,
  isBelieved,
  judged,
  LOUD_SPREAD_DB,
  NOISY_SPREAD_DB,
  QUIET_SPREAD_DB,
} from './judge.ts';
import { textOf } from './segments.ts';

/** Louder than this somewhere, or there is nothing to hear; decibels over one step of the scale. */
const LOUDEST_OF_SILENCE_DB = 25;

/** In noise the filter is tried in two strengths, and only words that both give are believed. */
const STRONG = { floor: 0.1, memory: 0.96 };
const MILD = { floor: 0.25, memory: 0.9 };

async function isSecondedBy(
  mild: Sound,
  work: Work,
  text: string,
  until: number,
): Promise<boolean | WhyUnheard> {
  const second = await decoded('words', mild, work, until - performance.now());
  return typeof second === 'string' ? second : textOf(second.segments) === text;
}

interface Sounds {
  spreadDb: number;
  sound: Sound;
  /** Noise taken out otherwise; undefined where there is little. */
  mild?: Sound;
}

async function soundsIn(samples: Int16Array, work: Work): Promise<Sounds> {
  const spreadDb = loudnessSpreadDb(samples);
  if (spreadDb >= QUIET_SPREAD_DB) return { spreadDb, sound: await withSound(work, 'whole', samples) };
  const sound = await withSound(work, 'strong', await quieted(samples, STRONG));
  if (spreadDb >= NOISY_SPREAD_DB) return { spreadDb, sound };
  return { spreadDb, sound, mild: await withSound(work, 'mild', await quieted(samples, MILD)) };
}

async function heardIn(work: Work, { spreadDb, sound, mild }: Sounds, until: number): Promise<Hearing> {
  const left = until - performance.now();
  if (left <= 0) return unheard('slow');
  const [words, phones] = await Promise.all([
    decoded('words', sound, work, left),
    decoded('phones', sound, work, left),
  ]);
  if (typeof words === 'string') return unheard(words);
  if (typeof phones === 'string') return unheard(phones);
  const said = judged(words.segments, phones.segments);
  if (said === undefined || !isBelieved(said.fit, spreadDb)) return unheard('noise');
  const { text, fit } = said;
  const seconded = mild === undefined || (await isSecondedBy(mild, work, text, until));
  if (seconded !== true) return unheard(seconded === false ? 'noise' : seconded);
  const noisy = spreadDb < LOUD_SPREAD_DB;
  const heard = {
    kind: 'heard' as const,
    text,
    alternatives: soundAlikesOf(text),
    confidence: confidenceOf(fit, spreadDb),
  };
  return noisy ? { ...heard, noisy } : heard;
}

async function listened(
  samples: Int16Array,
  about: About,
  dictionary: Dictionary,
  until: number,
): Promise<Hearing> {
  if (Math.max(...frameLoudnessDb(samples)) < LOUDEST_OF_SILENCE_DB) return unheard('nothing');
  const grammar = grammarFor(about.expecting, (word) => dictionary.has(word));
  return inWorkFolder(async (folder) => {
    const work = await prepared(folder, grammar, dictionary.linesFor(wordsIn(grammar)));
    return heardIn(work, await soundsIn(samples, work), until);
  });
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
