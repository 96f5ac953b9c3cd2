/** A plain pool with a suction cleaner, as these conversations are held at. */
import type { Equipment } from '../../src/knowledge/schema.ts';
import type { Talk } from '../driver/talk.ts';
import { startTalk } from '../driver/talk.ts';

export const PLAIN: Equipment = {
  cleaner: 'suction',
  connection: 'skimmer',
  canister: 'no',
  pump: 'single-speed',
  filter: 'cartridge',
};

/** A technician at the plain pool, asked what is wrong. */
export function technicianAtPlainPool(): Talk {
  const talk = startTalk({
    role: 'technician',
    pool: { name: 'Invented pool', equipment: PLAIN, clean: {} },
  });
  talk.say('/start');
  return talk;
}

/** The readings that count as answers of the latest case. */
export function readIn(talk: Talk): string[] {
  const record = talk.pools()[0]?.cases.at(-1);
  return (record?.events ?? []).flatMap((event) => (event.kind === 'reading' ? [event.said] : []));
}
