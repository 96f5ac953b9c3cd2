/** What a decode made of a recording, as `pocketsphinx_batch -hypseg` writes it. */

export interface Segment {
  word: string;
  /** First frame, hundredths of a second. */
  start: number;
  /** Last frame. */
  end: number;
  /** Logarithm of the acoustic likelihood, scaled. */
  acoustic: number;
}

const SILENCES = new Set(['<sil>', '<s>', '</s>', 'SIL', '(NULL)', '+NSN+', '+SPN+']);

/** Is the segment no speech? */
export const isSilence = ({ word }: Segment): boolean => SILENCES.has(word);

/**
 * The segments of one line: `id S n T n A n L n  start acoustic language word … last frame`. Empty where nothing was
 * made out.
 */
export function segmentsIn(line: string): Segment[] {
  const fields = line.trim().split(/\s+/u).slice(9);
  const last = Number(fields.at(-1));
  const segments: Segment[] = [];
  for (let at = 0; at + 4 < fields.length; at += 4) {
    const next = at + 4 < fields.length - 1 ? Number(fields[at + 4]) - 1 : last;
    const [start, acoustic, word] = [Number(fields[at]), Number(fields[at + 1]), fields[at + 3] ?? ''];
    segments.push({ word: word.replace(/\(\d+\)$/u, ''), start, end: next, acoustic });
  }
  return segments;
}

/** The words of the segments, as a text. */
export function textOf(segments: readonly Segment[]): string {
  return segments
    .filter((segment) => !isSilence(segment))
    .map(({ word }) => word)
    .join(' ');
}

export interface Fit {
  /** Over all that was said: difference of the acoustic scores for each frame that is not silence. */
  whole: number;
  /** Over the worst stretch of `STRETCH` frames. */
  worst: number;
}

/** Long enough for a syllable or two of something else, frames. */
const STRETCH = 40;

/** Each frame's share of its segment's score. */
function scoreByFrame(segments: readonly Segment[]): number[] {
  return segments.flatMap(({ start, end, acoustic }) => {
    const frames = Math.max(0, end - start + 1);
    return Array.from({ length: frames }, () => acoustic / frames);
  });
}

function worstStretch(differences: readonly number[]): number {
  let sum = 0;
  let worst = Infinity;
  for (const [at, difference] of differences.entries()) {
    sum += difference - (differences[at - STRETCH] ?? 0);
    if (at >= STRETCH - 1) worst = Math.min(worst, sum);
  }
  return (worst === Infinity ? sum : worst) / Math.max(1, Math.min(STRETCH, differences.length));
}

/**
 * How well the words of a grammar fit, against any sequence of phones. Near zero for what was said; far below for what
 * the grammar forced upon other sounds, of which a part may fit by chance: hence the worst stretch.
 */
export function fit(grammar: readonly Segment[], phones: readonly Segment[]): Fit {
  const total = (segments: readonly Segment[]): number =>
    segments.reduce((sum, { acoustic }) => sum + acoustic, 0);
  const frames = grammar
    .filter((segment) => !isSilence(segment))
    .reduce((sum, { start, end }) => sum + end - start + 1, 0);
  if (frames === 0) return { whole: -Infinity, worst: -Infinity };
  const [said, free] = [scoreByFrame(grammar), scoreByFrame(phones)];
  const differences = said.slice(0, free.length).map((score, at) => score - (free[at] ?? 0));
  return { whole: (total(grammar) - total(phones)) / frames, worst: worstStretch(differences) };
}
