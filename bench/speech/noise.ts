/** The noise of a pump, invented: the hum of a motor with its harmonics, and the rush of water. */

/** Random numbers from 0 to 1, the same for the same seed (a linear congruential generator, Numerical Recipes). */
export function randomFrom(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
    return state / 2 ** 32;
  };
}

const RATE = 16_000;
/** Silence before and after the words, seconds. */
const MARGIN_S = 0.3;
/** Twice the mains, the blades of the impeller and overtones of both: hertz, relative amplitude. */
const HUM: readonly (readonly [number, number])[] = [
  [60, 0.4],
  [120, 1],
  [240, 0.6],
  [345, 0.5],
  [360, 0.35],
  [690, 0.25],
  [1380, 0.1],
];

/** Power of the loudest nine tenths of the hundredths of a second that are not silent. */
function speechPower(samples: Int16Array): number {
  const frames: number[] = [];
  for (let start = 0; start + 160 <= samples.length; start += 160) {
    let energy = 0;
    for (let at = start; at < start + 160; at += 1) energy += (samples[at] ?? 0) ** 2;
    frames.push(energy / 160);
  }
  const loudest = Math.max(...frames);
  const spoken = frames.filter((power) => power > loudest / 1000);
  return spoken.reduce((sum, power) => sum + power, 0) / spoken.length;
}

/** Half hum, half rush; mean power one. */
function pump(length: number, random: () => number): Float64Array {
  const sound = new Float64Array(length);
  const phases = HUM.map(() => random() * 2 * Math.PI);
  const humPower = HUM.reduce((sum, [, amplitude]) => sum + amplitude ** 2 / 2, 0);
  let low = 0;
  const rush = Float64Array.from({ length }, () => {
    const white = random() + random() + random() - 1.5;
    // Water rushes louder at low frequencies: white noise with a share of its own slow part.
    low = 0.9 * low + 0.1 * white;
    return white * 0.5 + low * 2;
  });
  const rushPower = rush.reduce((sum, value) => sum + value ** 2, 0) / length;
  for (let at = 0; at < length; at += 1) {
    const hum = HUM.reduce(
      (sum, [hertz, amplitude], index) =>
        sum + amplitude * Math.sin((2 * Math.PI * hertz * at) / RATE + (phases[index] ?? 0)),
      0,
    );
    sound[at] = (hum / Math.sqrt(humPower) + (rush[at] ?? 0) / Math.sqrt(rushPower)) / Math.SQRT2;
  }
  return sound;
}

/** The speech with silence around it and, where a ratio of speech to noise is given (decibels), noise over all. */
export function inNoise(speech: Int16Array, ratioDb: number | undefined, seed: number): Int16Array {
  const margin = Math.round(MARGIN_S * RATE);
  const length = speech.length + 2 * margin;
  const loudness = ratioDb === undefined ? 0 : Math.sqrt(speechPower(speech) / 10 ** (ratioDb / 10));
  const noise = loudness === 0 ? new Float64Array(length) : pump(length, randomFrom(seed));
  // Some voices fill the whole scale; with noise it would be passed.
  return Int16Array.from({ length }, (_, at) => {
    const value = 0.5 * ((speech[at - margin] ?? 0) + loudness * (noise[at] ?? 0));
    return Math.max(-32768, Math.min(32767, Math.round(value)));
  });
}
