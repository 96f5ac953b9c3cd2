/** Words into a voice note: espeak-ng says them, opusenc packs them. */
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { runBounded, type Ran } from './bounded.ts';
import { inWorkFolder } from './work-folder.ts';

/** A stretch of speech. */
export interface SpokenPart {
  text: string;
  /** Said slowly: what protects a person. */
  slow?: boolean;
}

export type Spoken =
  | { kind: 'spoken'; opus: Buffer }
  | { kind: 'unspoken'; why: 'missing' | 'slow' | 'language' | 'nothing' | 'failed' };

export interface Speaker {
  /** Makes an OGG/Opus voice note. Never rejects. */
  speak(parts: readonly SpokenPart[], language: string): Promise<Spoken>;
}

const VOICES: Readonly<Record<string, string>> = { en: 'en-us', es: 'es-419' };
/** Words a minute. */
const SPEED = 155;
const SLOW_RATE = '80%';
/** Longer texts are for reading; about two minutes of speech. */
const LONGEST_TEXT = 1_800;
const SPEAK_MS = 10_000;
/** The sound library of espeak-ng takes 64 MB of shared memory at its start, which counts as a file. */
const LARGEST_WRITTEN_BYTES = 100_000_000;

const MARKUP: Readonly<Record<string, string>> = { '&': '&amp;', '<': '&lt;', '>': '&gt;', '"': '&quot;' };

/** Text that holds no markup and no characters that cannot be said. */
function escaped(text: string): string {
  return text.replace(/[\p{Cc}\p{Cs}]+/gu, ' ').replace(/[&<>"]/gu, (sign) => MARKUP[sign] ?? '');
}

function markedUp(parts: readonly SpokenPart[]): string {
  let left = LONGEST_TEXT;
  const said = parts.map(({ text, slow }) => {
    const piece = escaped(text.slice(0, left));
    left = Math.max(0, left - text.length);
    if (piece.trim() === '') return '';
    return `<p>${slow === true ? `<prosody rate="${SLOW_RATE}">${piece}</prosody>` : piece}</p>`;
  });
  return `<speak>${said.join('')}</speak>`;
}

function failureOf(ran: Ran): Spoken | undefined {
  if (ran.came === 'ended' && ran.code === 0) return undefined;
  const why = ran.came === 'missing' || ran.came === 'slow' ? ran.came : 'failed';
  return { kind: 'unspoken', why };
}

async function spoken(input: string, voice: string): Promise<Spoken> {
  return inWorkFolder(async (folder) => {
    const [sound, note] = [join(folder, 'said.wav'), join(folder, 'said.ogg')];
    const bounds = { timeMs: SPEAK_MS, fileBytes: LARGEST_WRITTEN_BYTES, home: folder };
    const said = await runBounded(
      'espeak-ng',
      ['-v', voice, '-s', `${SPEED}`, '-m', '--stdin', '-b', '1', '-w', sound],
      { ...bounds, input },
    );
    const packed =
      failureOf(said) ??
      failureOf(
        await runBounded('opusenc', ['--quiet', '--comp', '3', '--bitrate', '24', sound, note], bounds),
      );
    return packed ?? { kind: 'spoken', opus: await readFile(note) };
  });
}

/** Speech in English and Spanish by the voices of espeak-ng. */
export function espeakSpeaker(): Speaker {
  return {
    speak: async (parts, language) => {
      const voice = VOICES[language];
      if (voice === undefined) return { kind: 'unspoken', why: 'language' };
      if (parts.every(({ text }) => text.trim() === '')) return { kind: 'unspoken', why: 'nothing' };
      return spoken(markedUp(parts), voice).catch((): Spoken => ({ kind: 'unspoken', why: 'failed' }));
    },
  };
}
