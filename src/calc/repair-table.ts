/** Repairs and the hand-off in numbers, as the search for the cheapest order reads them. Costs are minutes. */

/** A set of set-ups, one bit each. */
export type SetUps = number;

export interface TriedRepair {
  /** Which cause it cures. */
  cause: number;
  /** Minutes of the repair itself, without set-ups. */
  minutes: number;
  needs: SetUps;
  /** Set-ups that stay as they are after it; the others are undone by it. */
  keeps: SetUps;
  /** Probability that it cures its cause where that is the cause, 0 to 1. */
  cures: number;
  /** What it takes to look whether the cause is there, minutes; then only what is found is repaired. Infinity where there is no look. */
  lookMinutes: number;
  lookNeeds: SetUps;
  /** The repair is not thought of where its cause is not likelier than this. */
  onlyAbove: number;
  /** How much the repair exposes the person, and how much the look does: 0, 1, 2 … */
  class: number;
  lookClass: number;
}

export interface HandOff {
  /** What handing the case on costs, minutes. */
  minutes: number;
  /** What is lost besides where the cause is not among the suspects handed on, minutes. */
  blindMinutes: number;
  /** How many suspects are handed on, 0 to 3. */
  suspects: number;
  /** What the repair of each cause still costs whoever takes over, minutes. Left out: nothing. */
  repairMinutes?: readonly number[];
}

/** Repairs as columns, for speed. */
export interface RepairTable {
  cause: Int32Array;
  minutes: Float64Array;
  needs: Int32Array;
  keeps: Int32Array;
  cures: Float64Array;
  lookMinutes: Float64Array;
  lookNeeds: Int32Array;
  onlyAbove: Float64Array;
  class: Int32Array;
  lookClass: Int32Array;
}

/** The columns of a list of repairs. */
export function tabled(repairs: readonly TriedRepair[]): RepairTable {
  const whole = (value: (repair: TriedRepair) => number): Int32Array => new Int32Array(repairs.map(value));
  const real = (value: (repair: TriedRepair) => number): Float64Array => new Float64Array(repairs.map(value));
  return {
    cause: whole(({ cause }) => cause),
    minutes: real(({ minutes }) => minutes),
    needs: whole(({ needs }) => needs),
    keeps: whole(({ keeps }) => keeps),
    cures: real(({ cures }) => cures),
    lookMinutes: real(({ lookMinutes }) => lookMinutes),
    lookNeeds: whole(({ lookNeeds }) => lookNeeds),
    onlyAbove: real(({ onlyAbove }) => onlyAbove),
    class: whole((repair) => repair.class),
    lookClass: whole(({ lookClass }) => lookClass),
  };
}

/** Minutes of every set of set-ups, by its bits, from the minutes of each. At most 8 set-ups. */
export function setUpTable(minutes: readonly number[]): Float64Array {
  const sets = Array.from({ length: 1 << minutes.length }, (_, set) => set);
  const sum = (set: SetUps): number =>
    minutes.reduce((total, each, bit) => ((set & (1 << bit)) === 0 ? total : total + each), 0);
  return Float64Array.from(sets, sum);
}
