/** What the person at the pool answers: by this pool's own outcome probabilities, sometimes wrong, sometimes unsure. */
import type { CaseEvent } from '../../src/engine/case.ts';
import type { CheckId, FaultId, Quantity } from '../../src/knowledge/ids.ts';
import { CHECK_IDS, FAULT_IDS } from '../../src/knowledge/ids.ts';
import type { Fault } from '../../src/knowledge/schema.ts';
import { checkById, faultById } from '../../src/knowledge/trade.ts';
import { mulberry32 } from '../../tests/truth/random.ts';
import type { Random } from './chance.ts';
import { dirichlet, drawn } from './chance.ts';
import type { Patient } from './world.ts';

/** How many answers are wrong beside what the tables foresee, and how many are "not sure". */
export const WRONG = 0.1;
export const UNSURE = 0.15;
/** Each pool's outcome probabilities lie around the tables as those of a sample of so many. */
export const OUTCOME_CONCENTRATION = 20;

/** A stream of its own for every question, so that every policy meets the same answers. */
function stream({ seed }: Patient, index: number): Random {
  const random = mulberry32(Math.imul(seed, 2_654_435_761) ^ Math.imul(index + 1, 40_503));
  random();
  return random;
}

function outcomeUnder(patient: Patient, id: CheckId, fault: Fault): number {
  const random = stream(patient, CHECK_IDS.indexOf(id));
  const check = checkById(id);
  const row = check.given.find(({ faults }) => faults.includes(fault.id))?.outcomes ?? check.base;
  return drawn(random, dirichlet(random, row, OUTCOME_CONCENTRATION));
}

/** What there is to see at this pool, however often it is looked at; of two faults, whichever shows. */
function trueOutcome(patient: Patient, id: CheckId): number {
  const seen = outcomeUnder(patient, id, patient.fault);
  return seen === 0 && patient.also !== undefined ? outcomeUnder(patient, id, patient.also) : seen;
}

function reading(random: Random, { shows, shakes }: Patient, check: CheckId & Quantity): CaseEvent {
  const value = shows[check];
  if (value === undefined)
    return { kind: 'answer', check, outcome: checkById(check).silent[0] ?? 'none', at: 0 };
  const misread = random() < WRONG ? 0.6 + 0.9 * random() : 1;
  const shaken = shakes ? { unsteady: true } : {};
  return { kind: 'reading', check, value: value * misread, said: '', at: 0, ...shaken };
}

/** The event that the answer to a check makes; asked a second time the person may go wrong or be unsure anew. */
export function answerTo(patient: Patient, id: CheckId, time: number): CaseEvent {
  const random = stream(patient, 1000 * (time + 1) + CHECK_IDS.indexOf(id));
  const { outcomes, quantity } = checkById(id);
  if (random() < UNSURE) return { kind: 'retired', check: id, why: 'unsure', at: 0 };
  if (quantity !== undefined) return reading(random, patient, quantity);
  const truth = trueOutcome(patient, id);
  const wrong = (truth + 1 + Math.floor(random() * (outcomes.length - 1))) % outcomes.length;
  return { kind: 'answer', check: id, outcome: outcomes[random() < WRONG ? wrong : truth]!, at: 0 };
}

/** Whether a repair cures: where it was a fault of this pool, as often as such a repair does. */
export function isCured(patient: Patient, fault: FaultId): boolean {
  const random = stream(patient, 500 + FAULT_IDS.indexOf(fault));
  const [cures] = dirichlet(random, [faultById(fault).repair.cures, 1 - faultById(fault).repair.cures], 30);
  return (fault === patient.fault.id || fault === patient.also?.id) && random() < cures!;
}
