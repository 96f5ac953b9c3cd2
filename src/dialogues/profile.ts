/** The equipment of a pool: what a complaint needs is asked first, the rest can be set at any time. */
import type { Equipment, EquipmentKey, FigureKey } from '../knowledge/schema.ts';
import { EQUIPMENT, EQUIPMENT_KEYS, FIGURE_KEYS, FIGURES } from '../knowledge/schema.ts';
import { amountsIn } from './calculators/amounts.ts';
import { si } from './calculators/units.ts';
import type { Context, Flow, Move } from './conversation.ts';
import { currentPool } from './conversation.ts';
import type { Understood } from './event.ts';
import { isFigure } from './record.ts';
import type { Measure, Option, Say, Text } from './say.ts';
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

/** Units a figure is shown in, and taken for where none is given. */
const USUAL_UNIT = { volume: 'gal', 'filter-area': 'ft2', 'rated-power': 'hp' } as const;

/** The question for a number known of the pool. */
function askFigure(key: FigureKey): Say {
  return { ...question(key, text(`equipment:${key}.ask`), [SKIP]), expects: 'amount' };
}

/** The value in SI that a message gives for a figure: null where it is left open, undefined where it cannot be. */
function figureAnswer(key: FigureKey, event: Understood): string | null | undefined {
  if (event.kind === 'command') return event.id === 'skip' || event.id === 'unsure' ? null : undefined;
  if (event.kind === 'answer' && event.option === 'skip') return null;
  const amount =
    event.kind === 'unclear' ? amountsIn(event.text).find(({ kind }) => kind === 'amount') : undefined;
  if (amount?.kind !== 'amount') return undefined;
  const value = si(amount.value, amount.unit ?? USUAL_UNIT[key]);
  return value >= FIGURES[key].from && value <= FIGURES[key].to ? String(value) : undefined;
}

function figureShown(key: FigureKey, value: number): Measure {
  const unit = USUAL_UNIT[key];
  return { measure: value / si(1, unit), unit, digits: key === 'volume' ? 0 : 1 };
}

function profileItem(key: EquipmentKey | FigureKey, shown: Text | Measure | undefined): Option {
  const value = shown ?? text('dialogue:pool.not-known');
  return { id: key, label: text('dialogue:pool.item', { name: text(`equipment:${key}.name`), value }) };
}

/** What is known of the pool as a list to choose from and change. */
export function askEditPool(context: Context): Say[] {
  const pool = currentPool(context);
  if (pool === undefined) return [];
  const equipment = EQUIPMENT_KEYS.map((key) => {
    const value = pool.equipment[key];
    return profileItem(key, value === undefined ? undefined : equipmentValue(key, value));
  });
  const figures = FIGURE_KEYS.map((key) => {
    const value = pool.figures[key];
    return profileItem(key, value === undefined ? undefined : figureShown(key, value));
  });
  const done: Option = { id: 'done', label: text('dialogue:option.done') };
  const ask = text('dialogue:pool.edit', { pool: poolName(pool) });
  return [question('edit-pool', ask, [...equipment, ...figures, done])];
}

/** Answers a message where a part of the profile is to be chosen for changing. */
export function answerEditPool(flow: EditFlow, event: Understood): Move | undefined {
  if (event.kind !== 'answer') return undefined;
  if (event.option === 'done') return { flow: flow.then };
  const key = [...EQUIPMENT_KEYS, ...FIGURE_KEYS].find((known) => known === event.option);
  return key && { flow: { at: 'edit-equipment', key, then: flow } };
}

/** The question for the new value of a part of the profile. */
export function askEditEquipment({ key }: EditKeyFlow): Say[] {
  return [isFigure(key) ? askFigure(key) : askEquipment(key)];
}

/** Answers a message where a new value for a part of the profile is waited for. */
export function answerEditEquipment(
  flow: EditKeyFlow,
  event: Understood,
  context: Context,
): Move | undefined {
  const { key } = flow;
  const value = isFigure(key) ? figureAnswer(key, event) : equipmentAnswer(key, event);
  const pool = currentPool(context);
  if (value === undefined || pool === undefined) return undefined;
  return { flow: flow.then, changes: [{ do: 'equip', pool: pool.id, key, value }] };
}
