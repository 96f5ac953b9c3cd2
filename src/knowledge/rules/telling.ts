/** How clearly a check tells of a fault, from the data alone. */
import type { Quantity } from '../ids.ts';
import type { Check, Effect, Fault } from '../schema.ts';
import { canMeet } from './breach.ts';

/** A fault is told clearly where it moves some outcome's probability by at least this much. */
const CLEARLY = 0.2;

const OF_PRESSURE_CLEANER: readonly Effect[] = ['cleaner-pressure-low', 'cleaner-pressure-off'];

/** Whether an effect moves what this instrument shows. */
function moves(effect: Effect, quantity: Quantity): boolean {
  if (effect === 'none') return false;
  if (effect === 'gauge-stuck') return quantity === 'filter-pressure';
  if (effect === 'no-flow') return true;
  return OF_PRESSURE_CLEANER.includes(effect) === (quantity === 'wheel-turns');
}

/** The greatest change of an outcome's probability that a fault makes, 0 to 1. */
function change(check: Check, fault: Fault): number {
  const row = check.given.find(({ faults }) => faults.includes(fault.id))?.outcomes ?? check.base;
  return Math.max(0, ...row.map((p, outcome) => Math.abs(p - (check.base[outcome] ?? 0))));
}

/** Whether a check tells clearly of a fault, at some pool that both fit. */
export function tellsOf(check: Check, fault: Fault): boolean {
  if (!canMeet(check.when, fault.when)) return false;
  if (check.quantity !== undefined) return moves(fault.effect, check.quantity);
  return change(check, fault) >= CLEARLY;
}
