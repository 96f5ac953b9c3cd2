/** What a file that came as a recording is, before any other program sees it. */
import { open, stat } from 'node:fs/promises';
import { LARGEST_BYTES, LONGEST_S } from './limits.ts';
import { opusNote } from './ogg.ts';
import type { WhyUnheard } from './recogniser.ts';

export type AudioKind = 'opus' | 'ogg' | 'wave' | 'mp3' | 'mp4' | 'webm' | 'flac' | 'amr';

export type AudioFile = { is: 'audio'; kind: AudioKind; bytes: Buffer } | { is: 'refused'; why: WhyUnheard };

/** First bytes of each kind: RFC 3533 and 7845 (Ogg, Opus), RFC 9559 (Matroska), RFC 9639 (FLAC), RFC 4867 (AMR). */
function kindOf(bytes: Buffer): AudioKind | undefined {
  const ascii = (start: number, end: number): string => bytes.toString('latin1', start, end);
  if (ascii(0, 4) === 'OggS') return bytes.subarray(0, 128).includes('OpusHead') ? 'opus' : 'ogg';
  if (ascii(0, 4) === 'RIFF' && ascii(8, 12) === 'WAVE') return 'wave';
  if (ascii(4, 8) === 'ftyp') return 'mp4';
  if (ascii(0, 4) === 'fLaC') return 'flac';
  if (ascii(0, 5) === '#!AMR') return 'amr';
  if (bytes.length > 4 && bytes.readUInt32BE(0) === 0x1a45dfa3) return 'webm';
  const isFrame = bytes.length > 2 && bytes[0] === 0xff && ((bytes[1] ?? 0) & 0xe6) === 0xe2;
  return ascii(0, 3) === 'ID3' || isFrame ? 'mp3' : undefined;
}

async function contentOf(file: string): Promise<Buffer | WhyUnheard> {
  const facts = await stat(file);
  if (!facts.isFile()) return 'not-audio';
  if (facts.size > LARGEST_BYTES) return 'too-big';
  if (facts.size === 0) return 'nothing';
  const handle = await open(file);
  try {
    return await handle.readFile();
  } finally {
    await handle.close();
  }
}

/** Reads a recording if it is one and within the limits; of a damaged voice note what is whole. A file that cannot be read is no recording. */
export async function audioFile(file: string): Promise<AudioFile> {
  const content = await contentOf(file).catch((): WhyUnheard => 'not-audio');
  if (typeof content === 'string') return { is: 'refused', why: content };
  const kind = kindOf(content);
  if (kind === undefined) return { is: 'refused', why: 'not-audio' };
  if (kind !== 'opus') return { is: 'audio', kind, bytes: content };
  const note = opusNote(content);
  if (note === undefined) return { is: 'refused', why: 'not-audio' };
  if (note.seconds > LONGEST_S) return { is: 'refused', why: 'too-long' };
  return { is: 'audio', kind, bytes: note.bytes };
}
