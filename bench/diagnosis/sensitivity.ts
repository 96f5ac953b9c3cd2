/**
 * What it costs where the priors and likelihoods that the engine reasons with are off by a factor of 2: every number of
 * the tables and of the hydraulics; and, which is worse than wrong tables can be, every suspect's numbers by themselves.
 */
import { normalised, withFloor } from '../../src/calc/belief.ts';
import { BANDS } from '../../src/engine/gauge.ts';
import type { CaseModel } from '../../src/engine/model.ts';
import { ANSWER_FLOOR, modelOf } from '../../src/engine/model.ts';
import { recently } from '../../src/engine/recently.ts';
import type { Check } from '../../src/knowledge/schema.ts';
import { mulberry32 } from '../../tests/truth/random.ts';
import { compared, patients } from './compare.ts';
import type { Random } from './chance.ts';
import { play } from './play.ts';
import { POLICIES } from './policies.ts';

/** Twice or half, by chance. */
function off(random: Random): number {
  return random() < 0.5 ? 2 : 0.5;
}

/** How far the numbers are off. */
interface Extent {
  /** Suspects of the same key share a number; those of the same label are told apart by nothing in the tables. */
  keyOf: (label: string, suspect: number) => string;
  /** A likelihood without the allowance for slips, and with it again. */
  undone: (p: number, outcomes: number) => number;
  done: (p: number, outcomes: number) => number;
}

/** The numbers of the tables: where they tell two suspects nothing apart, one number stands for both. */
const TABLES: Extent = {
  keyOf: (label) => label,
  // Not below 0: what is 0 in the tables comes back as a rounding error.
  undone: (p, outcomes) => Math.max(0, (p - ANSWER_FLOOR / outcomes) / (1 - ANSWER_FLOOR)),
  done: (p, outcomes) => withFloor(p, outcomes, ANSWER_FLOOR),
};

/** Every likelihood of every suspect by itself, and the allowance for slips with it. */
const EVERYTHING: Extent = {
  keyOf: (_, suspect) => String(suspect),
  undone: (p) => p,
  done: (p) => p,
};

function columnsOf(rows: readonly (readonly number[])[]): number[][] {
  return (rows[0] ?? []).map((_, suspect) => rows.map((row) => row[suspect] ?? 0));
}

/** Likelihoods of the outcomes of a check (row) under each suspect (column), each off; a column sums to one again. */
function wrongRows(rows: readonly (readonly number[])[], random: Random, extent: Extent): number[][] {
  const { keyOf, undone, done } = extent;
  const columnOf = recently<readonly [own: readonly number[], suspect: number], number[]>(
    rows[0]?.length ?? 0,
    ([own]) => normalised(own.map((p) => undone(p, own.length) * off(random))),
    ([own, suspect]) => keyOf(own.join(' '), suspect),
  );
  const wrong = columnsOf(rows).map((own, suspect) => columnOf([own, suspect]));
  return rows.map((_, outcome) => wrong.map((column) => done(column[outcome] ?? 0, rows.length)));
}

/** Likelihoods of gauges read together under each suspect, each off: one factor for every suspect and set of gauges. */
function wrongReadings(model: CaseModel, random: Random, extent: Extent): CaseModel['ofReadings'] {
  const { keyOf, undone, done } = extent;
  const factor = recently<string, number>(
    1000,
    () => off(random),
    (key) => key,
  );
  return (gauges, shakes) => {
    const read = Object.keys(gauges).sort().join(' ');
    const wrong = model.ofReadings(gauges, shakes).map((p, suspect) => {
      const label = model.faults[suspect]?.effect ?? 'none';
      return undone(p, BANDS.length) * factor(`${read}: ${keyOf(label, suspect)}`);
    });
    const most = Math.max(...wrong);
    return wrong.map((p) => done(p / most, BANDS.length));
  };
}

/** A model whose priors and likelihoods are each off by a factor of 2. */
function wrongModel(model: CaseModel, random: Random, extent: Extent): CaseModel {
  return {
    ...model,
    prior: normalised(model.prior.map((p) => p * off(random))),
    likelihood: recently<Check, number[][]>(
      100,
      (check) => wrongRows(model.likelihood(check), random, extent),
      ({ id }) => id,
    ),
    ofReadings: wrongReadings(model, random, extent),
  };
}

/** Two lines of figures: minutes with the wrong numbers over minutes with the engine's own, on the same cases. */
export function sensitivity(cases: number): { tables: string; everything: string } {
  const all = patients('prior', cases);
  const own = all.map((patient) => play(patient, POLICIES.padside));
  const against = (extent: Extent): string =>
    compared(
      all.map((patient) => {
        const model = wrongModel(modelOf(patient.setting), mulberry32(patient.seed + 1), extent);
        return play(patient, POLICIES.padside, { model });
      }),
      own,
    );
  return { tables: against(TABLES), everything: against(EVERYTHING) };
}
