/** Samples of a WAVE file, and what their loudness tells. */
import { SAMPLE_RATE } from './limits.ts';

const PCM = 1;
const EXTENSIBLE = 0xfffe;

interface Format {
  channels: number;
  rate: number;
}

function formatIn(bytes: Buffer, start: number, size: number): Format | undefined {
  if (size < 16) return undefined;
  const code = bytes.readUInt16LE(start);
  const format = { channels: bytes.readUInt16LE(start + 2), rate: bytes.readUInt32LE(start + 4) };
  const isPlain = (code === PCM || code === EXTENSIBLE) && bytes.readUInt16LE(start + 14) === 16;
  return isPlain && format.channels >= 1 && format.channels <= 8 ? format : undefined;
}

/** One channel, the mean of all. */
function mono(bytes: Buffer, channels: number): Int16Array {
  const samples = new Int16Array(Math.floor(bytes.length / (2 * channels)));
  for (let at = 0; at < samples.length; at += 1) {
    let sum = 0;
    for (let channel = 0; channel < channels; channel += 1)
      sum += bytes.readInt16LE(2 * (at * channels + channel));
    samples[at] = Math.round(sum / channels);
  }
  return samples;
}

/**
 * The samples of a 16-bit WAVE file at the rate that recognition works on, all channels in one; undefined for any
 * other file. A length that the header gives wrongly, as a stream's does, counts as up to the file's end.
 */
export function samplesOf(bytes: Buffer): Int16Array | undefined {
  if (bytes.toString('latin1', 0, 4) !== 'RIFF' || bytes.toString('latin1', 8, 12) !== 'WAVE')
    return undefined;
  let format: Format | undefined;
  for (let at = 12; at + 8 <= bytes.length;) {
    const name = bytes.toString('latin1', at, at + 4);
    const size = Math.min(bytes.readUInt32LE(at + 4), bytes.length - at - 8);
    if (name === 'fmt ') format = formatIn(bytes, at + 8, size);
    if (name === 'data')
      return format?.rate === SAMPLE_RATE
        ? mono(bytes.subarray(at + 8, at + 8 + size), format.channels)
        : undefined;
    at += 8 + size + (size % 2);
  }
  return undefined;
}

const FRAME = SAMPLE_RATE / 100;
/** Of a frame without any sound: one step of one sample. */
const SILENT_DB = 10 * Math.log10(1 / FRAME);

/** Mean energy of each hundredth of a second, decibels over one step of the scale. */
export function frameLoudnessDb(samples: Int16Array): number[] {
  const frames: number[] = [];
  for (let start = 0; start + FRAME <= samples.length; start += FRAME) {
    let energy = 0;
    for (let at = start; at < start + FRAME; at += 1) energy += (samples[at] ?? 0) ** 2;
    frames.push(energy === 0 ? SILENT_DB : 10 * Math.log10(energy / FRAME));
  }
  return frames;
}

/** How far the loud parts stand out of the rest: 95th less 10th percentile of the frames' loudness, decibels. */
export function loudnessSpreadDb(samples: Int16Array): number {
  const sorted = frameLoudnessDb(samples).sort((one, other) => one - other);
  const at = (share: number): number => sorted[Math.floor(share * (sorted.length - 1))] ?? SILENT_DB;
  return at(0.95) - at(0.1);
}
