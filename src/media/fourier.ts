/** The fast Fourier transform (Cooley and Tukey, 1965), in place, for lengths that are powers of two. */

export interface Spectrum {
  real: Float64Array;
  imaginary: Float64Array;
}

export interface Transform {
  forward: (spectrum: Spectrum) => void;
  /** Back to the signal; forward and backward together change nothing. */
  backward: (spectrum: Spectrum) => void;
}

/** Puts values into the order of their places written backwards in binary. */
function reordered({ real, imaginary }: Spectrum, length: number): void {
  for (let at = 1, other = 0; at < length; at += 1) {
    let bit = length >> 1;
    for (; (other & bit) !== 0; bit >>= 1) other ^= bit;
    other ^= bit;
    if (at >= other) continue;
    const [re, im] = [real[at] ?? 0, imaginary[at] ?? 0];
    real[at] = real[other] ?? 0;
    imaginary[at] = imaginary[other] ?? 0;
    real[other] = re;
    imaginary[other] = im;
  }
}

/** The transform of a length, a power of two. */
export function fourier(length: number): Transform {
  const angles = Array.from({ length: length / 2 }, (_, at) => (-2 * Math.PI * at) / length);
  const cosines = Float64Array.from(angles, Math.cos);
  const sines = Float64Array.from(angles, Math.sin);
  const joined = (
    { real, imaginary }: Spectrum,
    from: number,
    to: number,
    turn: number,
    sign: number,
  ): void => {
    const [cos, sin] = [cosines[turn] ?? 0, sign * (sines[turn] ?? 0)];
    const [re, im] = [real[to] ?? 0, imaginary[to] ?? 0];
    const [turnedRe, turnedIm] = [re * cos - im * sin, re * sin + im * cos];
    const [baseRe, baseIm] = [real[from] ?? 0, imaginary[from] ?? 0];
    real[to] = baseRe - turnedRe;
    imaginary[to] = baseIm - turnedIm;
    real[from] = baseRe + turnedRe;
    imaginary[from] = baseIm + turnedIm;
  };
  const transform = (spectrum: Spectrum, sign: number): void => {
    reordered(spectrum, length);
    for (let size = 2; size <= length; size *= 2)
      for (let start = 0; start < length; start += size)
        for (let at = 0; at < size / 2; at += 1)
          joined(spectrum, start + at, start + at + size / 2, (at * length) / size, sign);
  };
  return {
    forward: (spectrum) => transform(spectrum, 1),
    backward: (spectrum) => {
      transform(spectrum, -1);
      for (const part of [spectrum.real, spectrum.imaginary])
        for (let at = 0; at < length; at += 1) part[at] = (part[at] ?? 0) / length;
    },
  };
}
