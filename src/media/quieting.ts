/**
 * Taking steady noise, as that of a pump, out of a recording: a Wiener filter whose ratio of speech to noise is estimated
 * by the decision-directed rule of Ephraim and Malah (IEEE Trans. ASSP 32, 1984), the noise by how loud each frequency is
 * in its quieter moments.
 */
import { setImmediate as pause } from 'node:timers/promises';
import { fourier, type Spectrum } from './fourier.ts';

/** 32 ms at the rate that recognition works on. */
const FRAME = 512;
const HOP = 128;
const BINS = FRAME / 2 + 1;
/** Share of the moments in which a frequency is quieter than the noise level taken for it. */
const QUIET_SHARE = 0.2;
/** Most frames looked at for the level of the noise. */
const MOST_LOOKED_AT = 400;
/** Frames filtered before others get their turn. */
const AT_A_TIME = 400;
/** Sum of the squared windows that overlap at each sample. */
const OVERLAP = FRAME / HOP / 2;

/** How strongly noise is taken out. */
export interface Strength {
  /** What is left of a frequency at least, from 0 to 1. */
  floor: number;
  /** Weight of the moment before in the estimate, from 0 to 1: more leaves fewer musical tones and blurs more. */
  memory: number;
}

const WINDOW = Float64Array.from({ length: FRAME }, (_, at) => Math.sin((Math.PI * (at + 0.5)) / FRAME));
const { forward, backward } = fourier(FRAME);

function spectrumAt(samples: Int16Array, start: number): Spectrum {
  const real = Float64Array.from(WINDOW, (weight, at) => weight * (samples[start + at] ?? 0));
  const spectrum = { real, imaginary: new Float64Array(FRAME) };
  forward(spectrum);
  return spectrum;
}

const powerOf = ({ real, imaginary }: Spectrum, bin: number): number =>
  (real[bin] ?? 0) ** 2 + (imaginary[bin] ?? 0) ** 2;

/** Mean power of the noise in each frequency. Noise is taken to be Gaussian, so that its power is exponential. */
function noisePower(samples: Int16Array, starts: readonly number[]): Float64Array {
  const every = Math.ceil(starts.length / MOST_LOOKED_AT);
  const looked = starts.filter((_, at) => at % every === 0).map((start) => spectrumAt(samples, start));
  const levels = Float64Array.from({ length: BINS }, (_, bin) => {
    const powers = looked.map((spectrum) => powerOf(spectrum, bin)).sort((one, other) => one - other);
    return (powers[Math.floor(QUIET_SHARE * powers.length)] ?? 0) / -Math.log(1 - QUIET_SHARE);
  });
  return levels.map((level, bin) => {
    const near = [levels[bin - 1], level, levels[bin + 1]].filter((value) => value !== undefined);
    return near.reduce((sum, value) => sum + value, 0) / near.length;
  });
}

/** Filters one frame. `before`: the speech over the noise in each frequency a moment ago, written anew. */
function filtered(spectrum: Spectrum, noise: Float64Array, before: Float64Array, strength: Strength): void {
  const { floor, memory } = strength;
  for (let bin = 0; bin < BINS; bin += 1) {
    const ratio = powerOf(spectrum, bin) / ((noise[bin] ?? 0) + 1e-9);
    const speech = memory * (before[bin] ?? 0) + (1 - memory) * Math.max(0, ratio - 1);
    const gain = Math.max(floor, speech / (1 + speech));
    before[bin] = gain * gain * ratio;
    const mirrored = bin > 0 && bin < FRAME / 2 ? [bin, FRAME - bin] : [bin];
    for (const at of mirrored) {
      spectrum.real[at] = gain * (spectrum.real[at] ?? 0);
      spectrum.imaginary[at] = gain * (spectrum.imaginary[at] ?? 0);
    }
  }
}

/** The recording with steady noise taken out, as long as before. Lets other work in between. */
export async function quieted(samples: Int16Array, strength: Strength): Promise<Int16Array> {
  const count = Math.max(0, Math.floor((samples.length - FRAME) / HOP) + 1);
  const starts = Array.from({ length: count }, (_, at) => at * HOP);
  const noise = noisePower(samples, starts);
  const before = new Float64Array(BINS);
  const sum = new Float64Array(samples.length);
  for (const [at, start] of starts.entries()) {
    if (at % AT_A_TIME === AT_A_TIME - 1) await pause();
    const spectrum = spectrumAt(samples, start);
    filtered(spectrum, noise, before, strength);
    backward(spectrum);
    for (let place = 0; place < FRAME; place += 1)
      sum[start + place] =
        (sum[start + place] ?? 0) + ((spectrum.real[place] ?? 0) * (WINDOW[place] ?? 0)) / OVERLAP;
  }
  return Int16Array.from(sum, (value) => Math.max(-32_768, Math.min(32_767, Math.round(value))));
}
