/** What a knowledge rule finds, and the views of the trade that several rules take. */
import type { CautionId, Place } from '../ids.ts';
import type { Equipment, Step, Trade, When } from '../schema.ts';
import { EQUIPMENT_KEYS } from '../schema.ts';

/** One place where the trade's data breaks a rule. */
export interface Breach {
  /** Where, such as `faults.hose-split.repair`. */
  path: string;
  message: string;
  /** What usually mends it. */
  tip: string;
}

/** One rule: every breach of it, none where the data keeps it. Pure. */
export type Rule = (trade: Trade) => Breach[];

/** A check or a repair, as far as safety goes. */
export interface SafeStep {
  path: string;
  kind: 'check' | 'repair';
  id: string;
  step: Step;
  /** Place of the fault that a repair cures. */
  place?: Place;
  when: When;
}

/** Every check and repair of the trade. */
export function stepsOf(trade: Trade): SafeStep[] {
  const checks = trade.checks.map((check): SafeStep => ({
    path: `checks.${check.id}`,
    kind: 'check',
    id: check.id,
    step: check,
    when: check.when,
  }));
  const repairs = trade.faults.map(({ id, place, when, repair }): SafeStep => ({
    path: `faults.${id}.repair`,
    kind: 'repair',
    id,
    step: repair,
    place,
    when,
  }));
  return [...checks, ...repairs];
}

/** Whether the step is preceded by one of these cautions, for every pool it fits. */
export function carries(step: Step, ...ids: CautionId[]): boolean {
  return step.cautions.some(({ id, when }) => when === undefined && ids.includes(id));
}

/** Whether one pool can fit both conditions. */
export function canMeet(one: When, other: When): boolean {
  return EQUIPMENT_KEYS.every((key) => {
    const allowed = other[key];
    return allowed === undefined || (one[key]?.some((value) => allowed.includes(value)) ?? true);
  });
}

/** The conditions that exactly this equipment meets. */
export function whenOf(equipment: Equipment): When {
  return Object.fromEntries(
    EQUIPMENT_KEYS.flatMap((key) => (equipment[key] === undefined ? [] : [[key, [equipment[key]]]])),
  );
}
