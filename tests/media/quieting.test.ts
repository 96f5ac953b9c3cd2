/** Steady noise is taken out of a recording, what is said stays; and the transform that this rests on. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fourier } from '../../src/media/fourier.ts';
import { quieted } from '../../src/media/quieting.ts';
import { randomFrom } from '../../bench/speech/noise.ts';

const STRENGTH = { floor: 0.1, memory: 0.96 };
const RATE = 16_000;

/** The sum that the transform stands for, term by term. */
function plainTransform(signal: readonly number[]): { real: number[]; imaginary: number[] } {
  const sum = (part: (angle: number) => number, bin: number): number =>
    signal.reduce((total, value, at) => total + value * part((-2 * Math.PI * bin * at) / signal.length), 0);
  return {
    real: signal.map((_, bin) => sum(Math.cos, bin)),
    imaginary: signal.map((_, bin) => sum(Math.sin, bin)),
  };
}

describe('the Fourier transform', () => {
  const signals = fc.integer({ min: 1, max: 6 }).chain((power) =>
    fc.array(fc.double({ min: -1e4, max: 1e4, noNaN: true }), {
      minLength: 2 ** power,
      maxLength: 2 ** power,
    }),
  );

  it('should be the sum that it stands for, and lead back to the signal', () => {
    fc.assert(
      fc.property(signals, (signal) => {
        const { forward, backward } = fourier(signal.length);
        const spectrum = { real: Float64Array.from(signal), imaginary: new Float64Array(signal.length) };
        forward(spectrum);
        const { real, imaginary } = plainTransform(signal);
        real.forEach((value, at) => expect(spectrum.real[at]).toBeCloseTo(value, 5));
        imaginary.forEach((value, at) => expect(spectrum.imaginary[at]).toBeCloseTo(value, 5));
        backward(spectrum);
        signal.forEach((value, at) => expect(spectrum.real[at]).toBeCloseTo(value, 5));
      }),
    );
  });
});

describe('taking noise out', () => {
  const random = randomFrom(5);
  const noise = Float64Array.from({ length: 2 * RATE }, () => 3_000 * (random() + random() + random() - 1.5));
  /** Tones that come and go a few times a second, as syllables do. */
  const speech = Float64Array.from({ length: 2 * RATE }, (_, at) => {
    const isOn = at % 4_000 < 1_600;
    return isOn ? 5_000 * (Math.sin(at * 0.2) + Math.sin(at * 0.47)) : 0;
  });
  const power = (values: readonly number[]): number =>
    values.reduce((sum, value) => sum + value ** 2, 0) / values.length;
  const away = (sound: Int16Array, isOn: boolean): number =>
    power(
      Array.from(sound, (value, at) => value - speech[at]!).filter((_, at) => at % 4_000 < 1_600 === isOn),
    );

  it('should leave far less noise between words, and words nearer to what was said', async () => {
    const noisy = Int16Array.from(speech, (value, at) => Math.round(value + noise[at]!));
    const quiet = await quieted(noisy, STRENGTH);
    expect(quiet.length).toBe(noisy.length);
    expect(away(quiet, false)).toBeLessThan(away(noisy, false) / 20);
    expect(away(quiet, true)).toBeLessThan(away(noisy, true) / 2);
  });

  it.each([0, 1, 511, 512, 513])('should take a recording of %d samples', async (length) => {
    expect(await quieted(new Int16Array(length).fill(100), STRENGTH)).toHaveLength(length);
  });

  it('should let other work in between in a long recording', async () => {
    let turns = 0;
    const timer = setInterval(() => (turns += 1), 1);
    await quieted(new Int16Array(60 * RATE).fill(1), STRENGTH);
    clearInterval(timer);
    expect(turns).toBeGreaterThan(5);
  });
});
