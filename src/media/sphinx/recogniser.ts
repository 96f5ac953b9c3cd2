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
  type Judged,
  LOUD_SPREAD_DB,
  NOISY_SPREAD_DB,
  QUIET_SPREAD_DB,
} from './judge.ts';

/** Louder than this somewhere, or there is nothing to hear; decibels over one step of the scale. */
const LOUDEST_OF_SILENCE_DB = 25;

/** In noise the filter is tried in two strengths: some words come out with the one, some with the other. */
const STRONG = { floor: 0.1, memory: 0.96 };
const MILD = { floor: 0.25, memory: 0.9 };

/** The ways in which a recording is listened to. */
interface Sounds {
  spreadDb: number;
  sounds: readonly Sound[];
}

async function soundsIn(samples: Int16Array, work: Work): Promise<Sounds> {
  const spreadDb = loudnessSpreadDb(samples);
  if (spreadDb >= QUIET_SPREAD_DB) return { spreadDb, sounds: [await withSound(work, 'whole', samples)] };
  const strong = await withSound(work, 'strong', await quieted(samples, STRONG));
  return { spreadDb, sounds: [strong, await withSound(work, 'mild', await quieted(samples, MILD))] };
}

/** What was made of a sound, undefined where it is nothing; or why nothing could be made of it. */
async function judgedIn(sound: Sound, work: Work, until: number): Promise<Judged | undefined | WhyUnheard> {
  const left = until - performance.now();
  if (left <= 0) return 'slow';
  const [words, phones] = await Promise.all([
    decoded('words', sound, work, left),
    decoded('phones', sound, work, left),
  ]);
  if (typeof words === 'string') return words;
  if (typeof phones === 'string') return phones;
  return judged(words.segments, phones.segments);
}

/** Of the words to be believed those that fit best; in much noise only what every way of listening gave. */
function agreed(all: readonly (Judged | undefined)[], spreadDb: number): Judged | undefined {
  const [best] = all
    .filter((one) => one !== undefined)
    .filter(({ fit }) => isBelieved(fit, spreadDb))
    .sort((one, other) => other.fit.whole - one.fit.whole);
  const isAgreed = spreadDb >= NOISY_SPREAD_DB || all.every((one) => one?.text === best?.text);
  return isAgreed ? best : undefined;
}

async function heardIn(work: Work, { spreadDb, sounds }: Sounds, until: number): Promise<Hearing> {
  const all = await Promise.all(sounds.map((sound) => judgedIn(sound, work, until)));
  const failed = all.find((one) => typeof one === 'string');
  if (failed !== undefined) return unheard(failed);
  const said = agreed(
    all.filter((one) => typeof one !== 'string'),
    spreadDb,
  );
  if (said === undefined) return unheard('noise');
  const heard = {
    kind: 'heard' as const,
    text: said.text,
    alternatives: soundAlikesOf(said.text),
    confidence: confidenceOf(said.fit, spreadDb),
  };
  return spreadDb < LOUD_SPREAD_DB ? { ...heard, noisy: true } : heard;
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
