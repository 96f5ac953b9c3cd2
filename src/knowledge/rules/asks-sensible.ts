/** What a complaint asks of the equipment is asked once, in an order that makes sense, and makes a difference. */
import type { Complaint, EquipmentKey, Trade } from '../schema.ts';
import type { Breach, Rule } from './breach.ts';
import { stepsOf } from './breach.ts';

/** A question that only makes sense once another is answered. */
const AFTER: Partial<Record<EquipmentKey, EquipmentKey>> = {
  connection: 'cleaner',
  canister: 'cleaner',
  multiport: 'filter',
};

/** Whether any fault, check or caution hangs on this part of the equipment. */
function matters(key: EquipmentKey, trade: Trade): boolean {
  return stepsOf(trade).some(
    ({ when, step }) =>
      when[key] !== undefined || step.cautions.some((caution) => caution.when?.[key] !== undefined),
  );
}

function wrongAsks({ id, asks }: Complaint, trade: Trade): Breach[] {
  const path = `complaints.${id}.asks`;
  return asks.flatMap((key, index): Breach[] => {
    const before = asks.slice(0, index);
    const first = AFTER[key];
    if (before.includes(key))
      return [{ path, message: `asks for "${key}" twice`, tip: 'Ask for each part once.' }];
    if (first !== undefined && !before.includes(first))
      return [{ path, message: `asks for "${key}" before "${first}"`, tip: `Ask for "${first}" first.` }];
    if (!matters(key, trade))
      return [{ path, message: `nothing hangs on "${key}"`, tip: 'Do not ask for what changes nothing.' }];
    return [];
  });
}

/** The kind of cleaner decides most; it is asked first unless the complaint already says it. */
function cleanerNotFirst({ id, asks, when }: Complaint): Breach[] {
  if (asks[0] === 'cleaner' || when.cleaner?.length === 1) return [];
  const message = 'does not ask for the cleaner first';
  return [{ path: `complaints.${id}.asks`, message, tip: 'Start with "cleaner".' }];
}

export const asksSensible: Rule = (trade) =>
  trade.complaints.flatMap((complaint) => [...wrongAsks(complaint, trade), ...cleanerNotFirst(complaint)]);
