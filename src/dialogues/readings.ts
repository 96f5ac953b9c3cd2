/** Readings outside a case: logged at any time, judged at once; and the clean ones that all others are judged by. */
import type { Quantity } from '../knowledge/ids.ts';
import type { Context, Flow, Move } from './conversation.ts';
import { currentPool, poolOrFresh } from './conversation.ts';
import type { SpokenReading, Understood } from './event.ts';
import { flowSays, keptReading, slipsOf, sorted } from './gauges.ts';
import type { PoolRecord, RecordChange } from './record.ts';
import { withChange } from './record.ts';
import type { Option, Say } from './say.ts';
import { info, question, text } from './say.ts';
import { doubtOfClean } from '../engine/readings.ts';
import { knownOf } from './case-view.ts';
import { verdictOn } from './verdict.ts';
import { NO, SKIP, YES } from './words.ts';
import { checkById } from '../knowledge/trade.ts';

type GaugeFlow = Extract<Flow, { at: 'gauge' }>;
type DoubtFlow = Extract<Flow, { at: 'doubt' }>;

/** Gauges that can be read without touching anything. A tester in the hose needs its cautions: it is asked for in a case only. */
const GAUGES: readonly Quantity[] = ['filter-pressure', 'pump-vacuum'];

/** The gauges worth asking for at a pool: those it is not known to lack. */
function gaugesOf(pool: PoolRecord | undefined): Quantity[] {
  return GAUGES.filter((gauge) => !(pool?.missing.includes(gauge) ?? false));
}

/** The flow that asks for the readings of a pool, one gauge after another. */
export function readingRound(context: Context, clean: boolean, then: Flow): Move {
  const quantities = gaugesOf(currentPool(context));
  if (quantities.length === 0)
    return { flow: then, says: [info('no-gauges', text('dialogue:readings.no-gauges'))] };
  return { flow: { at: 'gauge', quantities, asked: 0, clean, then } };
}

/** The question whether to keep clean readings, after a cure. */
export function askBaselineOffer(): Say[] {
  return [question('baseline', text('dialogue:baseline.ask'), [YES, NO])];
}

/** Answers the offer to keep clean readings. */
export function answerBaselineOffer(event: Understood, context: Context): Move | undefined {
  const home: Flow = { at: 'complaint' };
  const says = [info('afterwards', text('dialogue:afterwards'))];
  if (event.kind === 'readings')
    return tookGauges(
      event.readings,
      { at: 'gauge', quantities: [], asked: 0, clean: true, then: home },
      context,
    );
  const declined = event.kind === 'command' && (event.id === 'skip' || event.id === 'unsure');
  if (declined || (event.kind === 'answer' && event.option === 'no'))
    return { flow: home, says, quiet: true };
  return event.kind === 'answer' && event.option === 'yes' ? readingRound(context, true, home) : undefined;
}

/** The gauge that is asked for. */
export function askGauge(flow: GaugeFlow): Say[] {
  const quantity = flow.quantities[flow.asked];
  if (quantity === undefined) return [];
  const none = checkById(quantity).silent.map((id): Option => ({
    id,
    label: text(`checks:${quantity}.outcomes.${id}`),
  }));
  return [
    {
      kind: 'reading',
      id: quantity,
      text: [text(`checks:${quantity}.ask`)],
      options: [...none, SKIP],
      expects: 'reading',
    },
  ];
}

function afterGauge(
  flow: GaugeFlow,
  asked: number,
  changes: readonly RecordChange[],
  says: readonly Say[],
): Move {
  if (asked < flow.quantities.length) return { flow: { ...flow, asked }, changes, says };
  const thanks = info(
    'readings-kept',
    text(flow.clean ? 'dialogue:baseline.kept' : 'dialogue:readings.kept'),
  );
  return { flow: flow.then, changes, says: [...says, thanks], quiet: flow.then.at === 'complaint' };
}

/** A kind question where clean readings contradict each other or what the equipment can do; they are kept all the same. */
function cleanDoubts(id: string, changes: readonly RecordChange[], { facts }: Context): Say[] {
  const pool = changes.reduce(withChange, facts).pools.find((known) => known.id === id);
  const doubt = pool && doubtOfClean(knownOf(pool));
  return doubt === undefined ? [] : [info('baseline-doubt', text(`dialogue:baseline.${doubt}`))];
}

function tookGauges(spoken: readonly SpokenReading[], flow: GaugeFlow, context: Context): Move {
  const { pool, changes: created } = poolOrFresh(context);
  const { good, doubtful } = sorted(spoken);
  const kept = good.map((reading) => keptReading(reading, flow.clean, context.facts.now));
  const changes = [
    ...created,
    ...kept.map((reading): RecordChange => ({ do: 'note-reading', pool: pool.id, reading })),
  ];
  const gauges = Object.fromEntries(kept.map(({ quantity, value }) => [quantity, value]));
  const verdict = flow.clean || kept.length === 0 ? [] : [info('verdict', ...verdictOn(gauges, pool))];
  const flows = flowSays(spoken, pool);
  const says = [...verdict, ...flows];
  if (kept.length === 0 && doubtful === undefined && flows.length > 0)
    return { flow: flow.quantities.length === 0 ? flow.then : flow, says };
  const set = { pool: pool.id };
  if (doubtful !== undefined) {
    const { quantity, unit } = doubtful;
    return {
      flow: { at: 'doubt', quantity, unit, slips: slipsOf(doubtful), then: flow },
      changes,
      says,
      set,
    };
  }
  const told = new Set(kept.map(({ quantity }) => quantity));
  const rest = flow.quantities.slice(flow.asked).filter((quantity) => !told.has(quantity));
  const doubts = flow.clean ? cleanDoubts(pool.id, changes, context) : [];
  return { ...afterGauge({ ...flow, quantities: rest, asked: 0 }, 0, changes, [...says, ...doubts]), set };
}

/** Answers a message where a gauge is asked for. */
export function answerGauge(flow: GaugeFlow, event: Understood, context: Context): Move | undefined {
  if (event.kind === 'readings') return tookGauges(event.readings, flow, context);
  const quantity = flow.quantities[flow.asked];
  const pool = currentPool(context);
  const left = event.kind === 'command' && (event.id === 'skip' || event.id === 'unsure');
  if (left || (event.kind === 'answer' && event.option === 'skip'))
    return afterGauge(flow, flow.asked + 1, [], []);
  if (event.kind !== 'answer' || quantity === undefined || pool === undefined) return undefined;
  if (!checkById(quantity).silent.includes(event.option)) return undefined;
  return afterGauge(flow, flow.asked + 1, [{ do: 'note-missing', pool: pool.id, instrument: quantity }], []);
}

/** Readings sent when nothing of the kind was asked for. */
export function loggedReadings(spoken: readonly SpokenReading[], then: Flow, context: Context): Move {
  return tookGauges(spoken, { at: 'gauge', quantities: [], asked: 0, clean: false, then }, context);
}

/** The question after an impossible reading, with what may have been meant. */
export function askDoubt(flow: DoubtFlow): Say[] {
  const slips = flow.slips.map((value): Option => ({
    id: String(value),
    label: text('dialogue:doubt.slip', { value, measure: text(`units:${flow.unit}`) }),
  }));
  const gauge = text(`checks:${flow.quantity}.name`);
  const ask = text(slips.length > 0 ? 'dialogue:doubt.ask' : 'dialogue:doubt.ask-again', { gauge });
  return [{ kind: 'reading', id: flow.quantity, text: [ask], options: [...slips, SKIP], expects: 'reading' }];
}
