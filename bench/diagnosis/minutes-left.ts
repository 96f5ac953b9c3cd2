/** How much of the person's own time each bit of doubt and each minute of expected repair still stands for. */
import { entropyBits } from '../../src/calc/belief.ts';
import { beliefOf } from '../../src/engine/belief.ts';
import { expectedRepairMinutes, minutesLeft } from '../../src/engine/minutes-left.ts';
import { patients } from './compare.ts';
import { mean } from './figures.ts';
import { play } from './play.ts';
import { POLICIES } from './policies.ts';

interface Moment {
  bits: number;
  repair: number;
  told: number;
  left: number;
}

function momentsOf(count: number): Moment[] {
  return patients('prior', count).flatMap((patient) => {
    const moments: (Omit<Moment, 'left'> & { before: number })[] = [];
    const { ownMinutes } = play(patient, (oneCase, model, spent) => {
      const belief = beliefOf(oneCase, model);
      const repair = expectedRepairMinutes(oneCase, belief);
      moments.push({ bits: entropyBits(belief), repair, told: minutesLeft(oneCase), before: spent });
      return POLICIES.padside(oneCase, model, spent);
    });
    return moments.map(({ before, ...moment }) => ({ ...moment, left: ownMinutes - before }));
  });
}

function sumOf(moments: readonly Moment[], of: keyof Moment, times: keyof Moment): number {
  return moments.reduce((sum, moment) => sum + moment[of] * moment[times], 0);
}

/** Least squares of the minutes left on bits and repair minutes, without a constant. */
export function minutesLeftFit(count: number): string {
  const moments = momentsOf(count);
  const [bb, br, rr] = [
    sumOf(moments, 'bits', 'bits'),
    sumOf(moments, 'bits', 'repair'),
    sumOf(moments, 'repair', 'repair'),
  ];
  const [bl, rl] = [sumOf(moments, 'bits', 'left'), sumOf(moments, 'repair', 'left')];
  const scale = bb * rr - br * br;
  const off = mean(moments.map(({ told, left }) => Math.abs(told - left)));
  return [
    `${((bl * rr - rl * br) / scale).toFixed(1)} minutes a bit`,
    `${((rl * bb - bl * br) / scale).toFixed(2)} a minute of expected repair`,
    `told: ${mean(moments.map(({ told }) => told)).toFixed(0)} on average, true: ${mean(moments.map(({ left }) => left)).toFixed(0)}, off by ${off.toFixed(0)}`,
  ].join(', ');
}
