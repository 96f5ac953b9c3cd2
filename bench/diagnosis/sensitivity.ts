/** What it costs where every prior share and every likelihood the engine reasons with is off by a factor of 2. */
import { normalised } from '../../src/calc/belief.ts';
import type { CaseModel } from '../../src/engine/model.ts';
import { modelOf } from '../../src/engine/model.ts';
import type { CheckId } from '../../src/knowledge/ids.ts';
import { mulberry32 } from '../../tests/truth/random.ts';
import { compared, patients } from './compare.ts';
import type { Random } from './chance.ts';
import { play } from './play.ts';
import { POLICIES } from './policies.ts';

/** Twice or half, by chance. */
function off(random: Random): number {
  return random() < 0.5 ? 2 : 0.5;
}

/** A model whose priors and likelihoods are each off by a factor of 2, and sum to one again. */
function wrongModel(model: CaseModel, random: Random): CaseModel {
  const rows = new Map<CheckId, readonly (readonly number[])[]>();
  return {
    ...model,
    prior: normalised(model.prior.map((p) => p * off(random))),
    likelihood: (check) => {
      const known = rows.get(check.id);
      if (known !== undefined) return known;
      const wrong = model.likelihood(check).map((row) => row.map((p) => p * off(random)));
      const sums = model.suspects.map((_, suspect) => wrong.reduce((sum, row) => sum + row[suspect]!, 0));
      const scaled = wrong.map((row) => row.map((p, suspect) => p / sums[suspect]!));
      rows.set(check.id, scaled);
      return scaled;
    },
  };
}

/** One line of figures: minutes with the wrong numbers over minutes with the engine's own, on the same cases. */
export function sensitivity(cases: number): string {
  const all = patients('prior', cases);
  const own = all.map((patient) => play(patient, POLICIES.padside));
  const wrong = all.map((patient) =>
    play(patient, POLICIES.padside, {
      model: wrongModel(modelOf(patient.setting), mulberry32(patient.seed + 1)),
    }),
  );
  return compared(wrong, own);
}
