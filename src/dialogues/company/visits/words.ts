/** Texts about visits that several dialogues use. */
import type { FullCase } from '../../record.ts';
import { briefOf } from '../../brief.ts';
import type { ActId } from '../../event.ts';
import type { Option, Say, Text } from '../../say.ts';
import { actOption, text } from '../../say.ts';
import type { Visit } from './visit.ts';

/** When a visit suits, as an owner can say it by a button. */
export const SUITS = ['soon', 'mornings', 'afternoons', 'any-time'] as const;

/** When it suits, in words. */
export function suitsText(suits: string): Text {
  if (suits === '') return text('visits:suits.not-said');
  return SUITS.some((known) => known === suits)
    ? text(`visits:suits.${suits}`)
    : text('visits:in-own-words', { words: suits });
}

/** A day such as 2030-06-01, to be shown as a date wherever the program runs. */
export function dayFact(day: string): { day: number } {
  return { day: Date.parse(`${day}T12:00:00Z`) };
}

/** What the technician of a visit is called. */
export function technicianText({ technicianName: name }: Visit): Text {
  return name === '' ? text('visits:a-technician') : text('visits:in-own-words', { words: name });
}

/** What a visit has come to so far. */
export function stateText(visit: Visit): Text {
  return text(`visits:state.${visit.state}`, { name: technicianText(visit) });
}

/** A pool as its company knows it. */
export function poolText({ poolName: name, reference }: Visit): Text {
  return text('visits:pool', { name, reference });
}

function ageText(ageMs: number): Text {
  const hours = Math.floor(ageMs / 3_600_000);
  if (hours < 1) return text('visits:age.minutes', { count: Math.max(1, Math.floor(ageMs / 60_000)) });
  return hours < 48
    ? text('visits:age.hours', { count: hours })
    : text('visits:age.days', { count: Math.floor(hours / 24) });
}

/** A visit in a list, with its state and how long ago it was asked for. */
export function visitLine(visit: Visit, now: number): Text {
  return text('visits:line', {
    pool: poolText(visit),
    state: stateText(visit),
    age: ageText(now - visit.openedAt),
  });
}

/** What stands above the brief: whose pool, where, when, and what to know at the gate. */
function headLines(visit: Visit): Text[] {
  const { address, suits, gateNotes, scheduledFor } = visit;
  return [
    text('visits:head', { pool: poolText(visit), state: stateText(visit) }),
    ...(address === '' ? [] : [text('visits:address', { address })]),
    ...(scheduledFor === undefined ? [] : [text('visits:scheduled', { day: dayFact(scheduledFor) })]),
    ...(suits === '' ? [] : [text('visits:suits-line', { suits: suitsText(suits) })]),
    ...(gateNotes === '' ? [] : [text('visits:gate-line', { notes: gateNotes })]),
  ];
}

/** The buttons beneath a brief in the staff chat, in the order in which they are wanted. */
export const OFFICE_ACTS: readonly ActId[] = [
  'accept-visit',
  'assign-visit',
  'schedule-visit',
  'ask-owner',
  'close-visit',
];

function buttons(acts: readonly ActId[], visit: string): Option[] {
  return acts.map((act) => actOption(act, visit, text(`visits:act.${act}`)));
}

/** The brief of a visit with what can be done about it. */
export function briefSay(visit: Visit, found: FullCase | undefined, acts: readonly ActId[]): Say {
  const brief = found === undefined ? [] : briefOf(found.pool, found.record).text;
  return {
    kind: 'brief',
    id: visit.id,
    text: [...headLines(visit), ...brief],
    options: buttons(acts, visit.id),
    stands: true,
  };
}

/** A message with buttons that stand, about a visit. */
export function standing(id: string, words: Text, acts: readonly ActId[], visit: string): Say {
  return { kind: 'info', id, text: [words], options: buttons(acts, visit), stands: true };
}
