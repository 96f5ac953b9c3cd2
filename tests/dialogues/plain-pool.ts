/** A plain pool with a suction cleaner, as these conversations are held at. */
import type { CaseEvent } from '../../src/engine/case.ts';
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

/** The events of the latest case. */
export function eventsIn(talk: Talk): readonly CaseEvent[] {
  return talk.pools()[0]?.cases.at(-1)?.events ?? [];
}

/** The readings that count as answers of the latest case. */
export function readIn(talk: Talk): string[] {
  return eventsIn(talk).flatMap((event) => (event.kind === 'reading' ? [event.said] : []));
}

/** What was answered in the latest case, asked for or not. */
export function answeredIn(talk: Talk): string[] {
  return eventsIn(talk).flatMap((event) =>
    event.kind === 'answer' ? [`${event.check} ${event.outcome}`] : [],
  );
}
