/** The steps that may come next: none of a higher class as long as one of a lower class pays for itself. */
import type { Outlook, Prospect } from './outlook.ts';
import { checkProspect, costToGo, minutesOf, repairProspect } from './outlook.ts';

/** Whether a step saves more than it takes. */
export function paysForItself({ saving, minutes }: Prospect): boolean {
  return saving > minutes;
}

/** The indices with the highest scores above 0, at most `most` of them, highest first. Asked often: nothing is sorted. */
function highest(scores: readonly number[], most: number): number[] {
  const best: number[] = [];
  const scoreAt = (place: number): number => scores[best[place] ?? 0] ?? 0;
  for (let index = 0; index < scores.length; index += 1) {
    const score = scores[index] ?? 0;
    if (score <= 0 || (best.length === most && score <= scoreAt(most - 1))) continue;
    let place = Math.min(best.length, most - 1);
    for (; place > 0 && scoreAt(place - 1) < score; place -= 1) best[place] = best[place - 1] ?? 0;
    best[place] = index;
  }
  return best;
}

/** How many repairs are looked at, the most promising first. */
const REPAIRS_LOOKED_AT = 10;

/** The repairs worth a look: by probability of cure over minutes. */
function promising({ belief, repairs, made, setUpMinutes }: Outlook): number[] {
  const promise = repairs.map((repair) => {
    const p = belief[repair.cause] ?? 0;
    return p > repair.onlyAbove ? (p * repair.cures) / minutesOf(repair, made, setUpMinutes) : 0;
  });
  return highest(promise, REPAIRS_LOOKED_AT);
}

/** Sum of the squared beliefs that an answer is expected to leave: 1 where it tells the cause for sure. */
function concentration(belief: ArrayLike<number>, likelihood: readonly (readonly number[])[]): number {
  let sum = 0;
  for (const row of likelihood) {
    let probability = 0;
    let squares = 0;
    for (let cause = 0; cause < belief.length; cause += 1) {
      const weight = (belief[cause] ?? 0) * (row[cause] ?? 0);
      probability += weight;
      squares += weight * weight;
    }
    if (probability > 0) sum += squares / probability;
  }
  return sum;
}

/** The checks that tell most a minute, at most `most` of them. */
function telling({ belief, checks, made, setUpMinutes }: Outlook, most: number): number[] {
  if (checks.length <= most) return checks.map((_, index) => index);
  let before = 0;
  for (let cause = 0; cause < belief.length; cause += 1) before += (belief[cause] ?? 0) ** 2;
  const scores = checks.map(
    (check) =>
      (check.answered * (concentration(belief, check.likelihood) - before)) /
      minutesOf(check, made, setUpMinutes),
  );
  return highest(scores, most);
}

export interface Permitted {
  /** No step of a higher class may come next. */
  highestClass: number;
  prospects: readonly Prospect[];
}

function highestClassOf({ checks, repairs }: Outlook): number {
  return Math.max(0, ...checks.map((check) => check.class), ...repairs.map((repair) => repair.class));
}

/**
 * The safe order: as long as a step of a lower class pays for itself, none of a higher class is thought of, whatever
 * it would save. With `mostChecks` only so many checks are looked at, those that tell most a minute.
 */
export function inSafeOrder(outlook: Outlook, mostChecks = Infinity): Permitted {
  const toGo = costToGo(outlook, outlook.belief, outlook.made);
  const checks = telling(outlook, mostChecks);
  const repairs = promising(outlook);
  const top = highestClassOf(outlook);
  const sofar: Prospect[] = [];
  for (let one = 0; one <= top; one += 1) {
    const before = sofar.length;
    for (const index of checks) {
      const prospect = outlook.checks[index]?.class === one && checkProspect(outlook, index, toGo);
      if (prospect) sofar.push(prospect);
    }
    for (const index of repairs) {
      const prospect = outlook.repairs[index]?.class === one && repairProspect(outlook, index);
      if (prospect) sofar.push(prospect);
    }
    if (sofar.slice(before).some(paysForItself)) return { highestClass: one, prospects: sofar };
  }
  return { highestClass: top, prospects: sofar };
}
