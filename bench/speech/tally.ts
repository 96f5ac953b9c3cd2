/** Counts by condition, and the table of them. */
import type { Outcome } from './outcome.ts';

/** Noise over the speech, decibels of speech over noise; undefined for none. */
export const RATIOS: readonly (number | undefined)[] = [undefined, 20, 15, 10];

export interface Counts {
  right: number;
  wrong: number;
  rejected: number;
  unrelated: number;
  falselyAccepted: number;
}

export const noCounts = (): Counts => ({ right: 0, wrong: 0, rejected: 0, unrelated: 0, falselyAccepted: 0 });

export function counted(counts: Counts, outcome: Outcome): void {
  counts[outcome] += 1;
}

const share = (part: number, all: number): string =>
  all === 0 ? '–' : `${((100 * part) / all).toFixed(1)} %`;

/** Goals at each ratio: right at least, wrong but accepted at most, false accepts at most; per cent. */
const GOALS: readonly string[] = ['97/3/2', '97/–/2', '93/–/2', '80/10/2'];

function row(name: string, counts: Counts, goal: string): string {
  const spoken = counts.right + counts.wrong + counts.rejected;
  const cells = [
    share(counts.right, spoken),
    share(counts.wrong, spoken),
    share(counts.rejected, spoken),
    `${spoken}`,
    share(counts.falselyAccepted, counts.unrelated),
    `${counts.unrelated}`,
    goal,
  ];
  return `${name.padEnd(20)}${cells.map((cell) => cell.padStart(12)).join('')}`;
}

const HEAD =
  'noise'.padEnd(20) +
  ['right', 'wrong', 'rejected', 'notes', 'false acc.', 'notes', 'goals']
    .map((cell) => cell.padStart(12))
    .join('');

/** The table of one half; counts in the order of `RATIOS`. */
export function table(title: string, all: readonly Counts[]): string {
  const rows = RATIOS.map((ratio, at) =>
    row(ratio === undefined ? 'none' : `${ratio} dB`, all[at] ?? noCounts(), GOALS[at] ?? ''),
  );
  return [title, HEAD, ...rows].join('\n');
}

/** Median, 95th percentile and longest of times in milliseconds. */
export function times(values: readonly number[]): string {
  const sorted = [...values].sort((one, other) => one - other);
  const at = (q: number): string => (sorted[Math.floor(q * (sorted.length - 1))] ?? NaN).toFixed(0);
  return `median ${at(0.5)} ms, 95 % within ${at(0.95)} ms, longest ${at(1)} ms`;
}
