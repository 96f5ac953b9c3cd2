/** The equipment of a pool: what a complaint needs is asked first, the rest can be set at any time. */
import type { Equipment, EquipmentKey } from '../knowledge/schema.ts';
import { EQUIPMENT, EQUIPMENT_KEYS } from '../knowledge/schema.ts';
import type { Context, Flow, Move } from './conversation.ts';
import { currentPool } from './conversation.ts';
import type { Understood } from './event.ts';
import type { Option, Say } from './say.ts';
import { question, text } from './say.ts';
import { equipmentValue, poolName, SKIP } from './words.ts';

type EditFlow = Extract<Flow, { at: 'edit-pool' }>;
type EditKeyFlow = Extract<Flow, { at: 'edit-equipment' }>;

/** Whether a set-up question makes sense and is still open, given what is known. */
export function askable(key: EquipmentKey, equipment: Equipment): boolean {
  if (equipment[key] !== undefined) return false;
  switch (key) {
    case 'cleaner':
      return true;
    case 'connection':
    case 'canister':
      return equipment.cleaner === 'suction';
    case 'multiport':
      return equipment.cleaner !== 'robotic' && (equipment.filter === 'sand' || equipment.filter === 'de');
    case 'pump':
    case 'filter':
      return equipment.cleaner !== 'robotic';
  }
}

/** The set-up question for one part of the equipment. */
export function askEquipment(key: EquipmentKey): Say {
  const options = EQUIPMENT[key].map((value): Option => ({ id: value, label: equipmentValue(key, value) }));
  return question(key, text(`equipment:${key}.ask`), [...options, SKIP]);
}

/** The value that a message gives for a part of the equipment: null where it is left open. */
export function equipmentAnswer(key: EquipmentKey, event: Understood): string | null | undefined {
  if (event.kind === 'command') return event.id === 'skip' || event.id === 'unsure' ? null : undefined;
  if (event.kind !== 'answer') return undefined;
  if (event.option === 'skip' || event.option === 'unsure') return null;
  return EQUIPMENT[key].find((value) => value === event.option);
}

/** The pool's equipment as a list to choose from and change. */
export function askEditPool(context: Context): Say[] {
  const pool = currentPool(context);
  if (pool === undefined) return [];
  const options = EQUIPMENT_KEYS.map((key): Option => {
    const value = pool.equipment[key];
    const shown = value === undefined ? text('dialogue:pool.not-known') : equipmentValue(key, value);
    return {
      id: key,
      label: text('dialogue:pool.item', { name: text(`equipment:${key}.name`), value: shown }),
    };
  });
  const done: Option = { id: 'done', label: text('dialogue:option.done') };
  return [question('edit-pool', text('dialogue:pool.edit', { pool: poolName(pool) }), [...options, done])];
}

/** Answers a message where a part of the equipment is to be chosen for changing. */
export function answerEditPool(flow: EditFlow, event: Understood): Move | undefined {
  if (event.kind !== 'answer') return undefined;
  if (event.option === 'done') return { flow: flow.then };
  const key = EQUIPMENT_KEYS.find((known) => known === event.option);
  return key && { flow: { at: 'edit-equipment', key, then: flow } };
}

/** Answers a message where a new value for a part of the equipment is waited for. */
export function answerEditEquipment(
  flow: EditKeyFlow,
  event: Understood,
  context: Context,
): Move | undefined {
  const value = equipmentAnswer(flow.key, event);
  const pool = currentPool(context);
  if (value === undefined || pool === undefined) return undefined;
  return { flow: flow.then, changes: [{ do: 'equip', pool: pool.id, key: flow.key, value }] };
}
