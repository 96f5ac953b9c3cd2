/** When it is day with a person: nothing is sent to them of its own accord by night. */
import type { Context, Flow, Move } from './conversation.ts';
import type { Understood } from './event.ts';
import { localTime } from './local-time.ts';
import type { Say } from './say.ts';
import { info, question, text } from './say.ts';

type ZoneFlow = Extract<Flow, { at: 'zone' }>;

/** As somebody types it: without accents, capitals and the like. */
function plain(name: string): string {
  const bare = name.normalize('NFD').replaceAll(/\p{M}/gu, '').toLowerCase();
  return bare.trim().replaceAll(/[\s_-]+/g, ' ');
}

function isZone(name: string): boolean {
  try {
    return new Intl.DateTimeFormat('en', { timeZone: name }).resolvedOptions().timeZone !== '';
  } catch {
    return false;
  }
}

const ZONES = Intl.supportedValuesOf('timeZone');

/** The IANA time zone of this name or of this large city; undefined where there is none. */
export function zoneNamed(said: string): string | undefined {
  const wanted = plain(said);
  if (wanted === '') return undefined;
  const known =
    ZONES.find((zone) => plain(zone) === wanted) ??
    ZONES.find((zone) => plain(zone.slice(zone.lastIndexOf('/') + 1)) === wanted);
  // Names that were changed since are still taken.
  return known ?? (isZone(said.trim()) ? said.trim() : undefined);
}

/** Which time zone. */
export function askZone(): Say[] {
  return [{ ...question('zone', text('afterwards:zone.ask'), []), expects: 'name' }];
}

function twoDigits(number: number): string {
  return String(number).padStart(2, '0');
}

/** Notes the time zone said, or asks for it anew. */
export function zoneSaid(said: string, then: Flow, { facts }: Context): Move {
  const zone = zoneNamed(said);
  if (zone === undefined)
    return { flow: { at: 'zone', then }, says: [info('no-such-zone', text('afterwards:zone.unclear'))] };
  const { hour, minute } = localTime(facts.now, zone);
  const time = `${twoDigits(hour)}:${twoDigits(minute)}`;
  const says = [info('zone-set', text('afterwards:zone.set', { zone, time }))];
  return { flow: then, changes: [{ do: 'set-person', timeZone: zone }], says };
}

/** Answers the question which time zone. */
export function answerZone(flow: ZoneFlow, event: Understood, context: Context): Move | undefined {
  return event.kind === 'unclear' ? zoneSaid(event.text, flow.then, context) : undefined;
}
