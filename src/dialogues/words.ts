/** Texts that several dialogues use: names of the trade by their ids, and the shared options. */
import { BANDS, referenceFor } from '../engine/gauge.ts';
import type { Gauges } from '../engine/case.ts';
import type { Evidence } from '../engine/model.ts';
import type { Quantity, SuspectId } from '../knowledge/ids.ts';
import { isQuantity } from '../knowledge/ids.ts';
import type { EquipmentKey } from '../knowledge/schema.ts';
import type { PoolRecord } from './record.ts';
import type { Option, Text } from './say.ts';
import { text } from './say.ts';

export const UNSURE: Option = { id: 'unsure', label: text('dialogue:option.unsure') };
export const SKIP: Option = { id: 'skip', label: text('dialogue:option.skip') };
export const YES: Option = { id: 'yes', label: text('dialogue:option.yes') };
export const NO: Option = { id: 'no', label: text('dialogue:option.no') };

/** The name of a suspect. */
export function faultName(fault: SuspectId): Text {
  return text(`faults:${fault}.name`);
}

/** An equipment value in words. */
export function equipmentValue(key: EquipmentKey, value: string): Text {
  return text(`equipment:${key}.options.${value}`);
}

/** What the person calls the pool. */
export function poolName(pool: PoolRecord): Text {
  return pool.name === '' ? text('dialogue:pool.unnamed') : text('dialogue:pool.named', { name: pool.name });
}

/** A finding in a short clause, such as "the throat is blocked". */
export function finding(evidence: Evidence): Text {
  if (isQuantity(evidence.check) && !BANDS.some((band) => band === evidence.outcome))
    return text('dialogue:brief.no-instrument', { gauge: text(`checks:${evidence.check}.name`) });
  return isQuantity(evidence.check)
    ? text(`dialogue:band.${evidence.outcome}`, { gauge: text(`checks:${evidence.check}.name`) })
    : text(`checks:${evidence.check}.found.${evidence.outcome}`);
}

/** What a reading is judged against, in words: the pool's own clean reading or a rule of thumb. */
export function judgedAgainst(quantity: Quantity, baseline: Gauges): Text {
  const reference = referenceFor(quantity, baseline);
  return text(reference.ownBaseline ? 'dialogue:verdict.own-clean' : 'dialogue:verdict.rule-of-thumb', {
    clean: { quantity, value: reference.value },
  });
}
