/** What is kept of a visit that is closed, and what its owner is told. */
import type { SuspectId } from '../../../knowledge/ids.ts';
import { SOMETHING_ELSE } from '../../../knowledge/ids.ts';
import type { Context, Move } from '../../conversation.ts';
import type { GaugeReading } from '../../event.ts';
import { keptReading, sorted } from '../../gauges.ts';
import type { Reading, RecordChange } from '../../record.ts';
import type { Say, Text } from '../../say.ts';
import { info, text } from '../../say.ts';
import { faultName } from '../../words.ts';
import type { Closing } from './changes.ts';
import type { Found } from './deeds.ts';
import { caseBehind, changed } from './deeds.ts';
import type { ClosingSoFar } from './flow.ts';
import type { Visit } from './visit.ts';
import { poolText } from './words.ts';

type Complete = ClosingSoFar & { cause: SuspectId; isRepaired: boolean; minutes: number };

function closingOf(
  said: Complete,
  good: readonly GaugeReading[],
  firstSuspect: SuspectId | undefined,
  now: number,
): Closing {
  const { cause, isRepaired, parts = '', minutes, clean } = said;
  const latest = new Map(good.map((reading) => [reading.quantity, reading]));
  return {
    cause,
    isRepaired,
    parts: isRepaired ? parts : '',
    minutes,
    readings: [...latest.values()].map((reading) => keptReading(reading, clean, now)),
    ...(firstSuspect === undefined ? {} : { firstSuspect }),
  };
}

function partsText({ parts, cause }: Closing): Text {
  return parts === 'usual' ? text(`faults:${cause}.bring`) : text('visits:in-own-words', { words: parts });
}

function readingsText(readings: readonly Reading[]): Text[] {
  if (readings.length === 0) return [];
  const items = readings.map(({ quantity, value }) =>
    text('visits:closing.reading', { gauge: text(`checks:${quantity}.name`), reading: { quantity, value } }),
  );
  const key = readings.some(({ clean }) => clean)
    ? 'visits:closing.readings-clean'
    : 'visits:closing.readings';
  return [text(key, { items })];
}

function repairText(closing: Closing): Text {
  if (!closing.isRepaired) return text('visits:closing.told-not-repaired');
  // "Usual" names all that is brought for a cause, which is more than what was put in.
  return closing.parts === '' || closing.parts === 'usual'
    ? text(`visits:closing.told-${closing.parts === '' ? 'repaired' : 'repaired-part'}`)
    : text('visits:closing.told-parts', { parts: partsText(closing) });
}

/** The summary for the owner: what it was in plain words, what was done, how long it took, what the gauges show. */
function ownerSummary(visit: Visit, closing: Closing, company: string): Say {
  const { cause, minutes, readings } = closing;
  return info(
    'visit-summary',
    text('visits:closing.told-head', { company, pool: visit.poolName }),
    text('visits:closing.told-cause', { fault: faultName(cause) }),
    ...(cause === SOMETHING_ELSE ? [] : [text(`faults:${cause}.owner`)]),
    repairText(closing),
    text('visits:closing.told-minutes', { minutes }),
    ...readingsText(readings),
  );
}

/** What the technician and the office read back. */
function readBack(visit: Visit, closing: Closing, impossible: boolean): Say {
  const { cause, minutes, readings } = closing;
  return info(
    'visit-closed',
    text('visits:closing.kept', { pool: poolText(visit), fault: faultName(cause), minutes }),
    repairText(closing),
    ...readingsText(readings),
    ...(impossible ? [text('visits:closing.impossible')] : []),
  );
}

/** Closes the visit: its record, the pool's readings, the cause for later priors, and the owner's summary. */
export function closed(
  found: Found,
  to: Visit['state'],
  said: Complete,
  firstSuspect: SuspectId | undefined,
  context: Context,
): Pick<Move, 'changes' | 'says' | 'sends'> {
  const { visit, given } = found;
  const { company, id, pool, consult } = visit;
  const { facts } = context;
  const { good, doubtful } = sorted(said.readings);
  const closing = closingOf(said, good, firstSuspect, facts.now);
  const changes: RecordChange[] = [
    ...closing.readings.map((reading): RecordChange => ({ do: 'note-reading', pool, reading })),
    {
      do: 'note-closing',
      company,
      visit: id,
      ...(consult === undefined ? {} : { case: consult }),
      closing,
      equipment: caseBehind(found, facts)?.pool.equipment ?? {},
    },
  ];
  return changed(found, to, context, {
    changes,
    says: [readBack(visit, closing, doubtful !== undefined)],
    ownerSays: [ownerSummary(visit, closing, given.company.name)],
  });
}
