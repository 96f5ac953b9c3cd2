/**
 * Measures the diagnosis: time of a decision, against the exact optimum on small models, against other ways of going
 * about it on the full trade, with wrong numbers, and its safety. `--cases N`, `--models N` and `--steps N` for more.
 */
import { againstOptimum } from './against-optimum.ts';
import { comparison, SEED } from './compare.ts';
import { OUTCOME_CONCENTRATION, UNSURE, WRONG } from './person.ts';
import { watchedByAll } from './safety.ts';
import { minutesLeftFit } from './minutes-left.ts';
import { sensitivity } from './sensitivity.ts';
import { decisionTimes } from './timing.ts';
import { twoFaults } from './two-faults.ts';

function option(name: string, usual: number): number {
  const at = process.argv.indexOf(`--${name}`);
  return at === -1 ? usual : Number(process.argv[at + 1]);
}

const cases = option('cases', 100);
const models = option('models', 50);
const steps = option('steps', 2000);

function say(line: string): void {
  process.stdout.write(`${line}\n`);
}

const { states, min, median, p99, most } = decisionTimes(8);
const [least, middle, high, top] = [min, median, p99, most].map((time) => time.toFixed(2));
say(`One decision, ${states} states: least ${least} ms, median ${middle}, 99 % ${high}, most ${top}\n`);
say(`Against the exact optimum under the same safe order: ${againstOptimum(models)}\n`);
say(
  `${cases} cases each, seed ${SEED}; ${100 * WRONG} % of answers wrong beside what the tables foresee, ` +
    `${100 * UNSURE} % unsure; each pool's outcome probabilities as from a sample of ${OUTCOME_CONCENTRATION}; ± is the 95 % interval`,
);
for (const draw of ['prior', 'uniform'] as const) say(`\nCases drawn by ${draw}\n${comparison(draw, cases)}`);
const { tables, everything } = sensitivity(cases);
say(`\nPriors and likelihoods each off by a factor of 2: ${tables}`);
say(
  `The same, every suspect's numbers by themselves and the allowance for wrong answers with them: ${everything}`,
);
say(`\nTwo faults at once: ${twoFaults(cases)}`);
say(`\nMinutes left, as the person is told them: ${minutesLeftFit(cases)}`);
const { cases: played, steps: shown, breaches } = await watchedByAll(steps);
say(`\n${shown} steps in ${played} cases: ${breaches.length} breaches of safe order, roles or cautions`);
for (const breach of new Set(breaches))
  say(`  ${breaches.filter((one) => one === breach).length} × ${breach}`);
