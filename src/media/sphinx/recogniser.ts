/** Recognition on this machine, offline, in English: PocketSphinx with a grammar of what may be said. */
import { audioFile } from '../audio-file.ts';
import { soundAlikesOf } from '../english/sound-alikes.ts';
import { LONGEST_MS } from '../limits.ts';
import { decodedOpus } from '../opus.ts';
import { unheard, type About, type Hearing, type Recogniser, type WhyUnheard } from '../recogniser.ts';
import { frameLoudnessDb, loudnessSpreadDb } from '../wave.ts';
import { inWorkFolder } from '../work-folder.ts';
import { decoded, DICTIONARY, prepared, type Work } from './decode.ts';
import { readDictionary, type Dictionary } from './dictionary.ts';
import { grammarFor, wordsIn } from './grammar.ts';
import { confidenceOf, isBelieved, judged, LOUD_SPREAD_DB, NOISY_SPREAD_DB } from './judge.ts';
import { textOf } from './segments.ts';

/** Louder than this somewhere, or there is nothing to hear; decibels over one step of the scale. */
const LOUDEST_OF_SILENCE_DB = 25;

/** The second opinion in noise: the same words, decoded another way. */
async function isSecondedBy(work: Work, text: string, until: number): Promise<boolean | WhyUnheard> {
  const second = await decoded('words', 'as it is', work, until - performance.now());
  return typeof second === 'string' ? second : textOf(second.segments) === text;
}

async function heardIn(work: Work, spreadDb: number, until: number): Promise<Hearing> {
  const left = until - performance.now();
  if (left <= 0) return unheard('slow');
  const [words, phones] = await Promise.all([
    decoded('words', 'cleaned', work, left),
    decoded('phones', 'cleaned', work, left),
  ]);
  if (typeof words === 'string') return unheard(words);
  if (typeof phones === 'string') return unheard(phones);
  const said = judged(words.segments, phones.segments);
  if (said === undefined || !isBelieved(said.fit, spreadDb)) return unheard('noise');
  const { text, fit } = said;
  const seconded = spreadDb >= NOISY_SPREAD_DB || (await isSecondedBy(work, text, until));
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
    const work = await prepared(folder, grammar, dictionary.linesFor(wordsIn(grammar)), samples);
    return heardIn(work, loudnessSpreadDb(samples), until);
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
