/** A pool given to a person outside any conversation. */
import type { RecordChange } from '../dialogues/record.ts';
import type { Gauges } from '../engine/case.ts';
import { QUANTITIES } from '../knowledge/ids.ts';
import type { Equipment } from '../knowledge/schema.ts';
import { EQUIPMENT_KEYS } from '../knowledge/schema.ts';

export interface PoolSeed {
  id: string;
  name: string;
  equipment: Equipment;
  /** Clean readings, SI. */
  clean: Gauges;
}

/** The changes of record that give a person the pool. */
export function seedChanges({ id, name, equipment, clean }: PoolSeed, at: number): RecordChange[] {
  const said = 'on record';
  return [
    { do: 'create-pool', pool: id, name },
    ...EQUIPMENT_KEYS.flatMap((key): RecordChange[] => {
      const value = equipment[key];
      return value === undefined ? [] : [{ do: 'equip', pool: id, key, value }];
    }),
    ...QUANTITIES.flatMap((quantity): RecordChange[] => {
      const value = clean[quantity];
      if (value === undefined) return [];
      return [{ do: 'note-reading', pool: id, reading: { quantity, value, said, clean: true, at } }];
    }),
  ];
}
