/** Several pools a person: choosing one, adding one, and what its record holds. */
import type { Context, Flow, Move } from './conversation.ts';
import { resumed } from './consult.ts';
import { currentPool } from './conversation.ts';
import type { Understood } from './event.ts';
import type { CaseRecord, PoolRecord, Reading } from './record.ts';
import type { Option, Say, Text } from './say.ts';
import { info, question, text } from './say.ts';
import { filterTrend } from './trend.ts';
import { faultName, poolName } from './words.ts';

type PoolsFlow = Extract<Flow, { at: 'pools' }>;
type NameFlow = Extract<Flow, { at: 'pool-name' }>;

const LONGEST_NAME = 60;
const CASES_SHOWN = 5;
const READINGS_SHOWN = 6;
const NEW_POOL = 'new-pool';

/** Which pool. */
export function askPools({ facts }: Context): Say[] {
  const options = facts.pools.map((pool): Option => ({ id: pool.id, label: poolName(pool) }));
  const add: Option = { id: NEW_POOL, label: text('dialogue:pool.add') };
  return [question('pools', text('dialogue:pool.which'), [...options, add])];
}

/** Answers the question which pool. */
export function answerPools(flow: PoolsFlow, event: Understood, context: Context): Move | undefined {
  if (event.kind !== 'answer') return undefined;
  if (event.option === NEW_POOL) return { flow: { at: 'pool-name', then: flow.then } };
  const pool = context.facts.pools.find(({ id }) => id === event.option);
  return pool && turnedTo(pool, flow.then, context);
}

/** Goes to a pool, and on with its case where one is open. */
function turnedTo(pool: PoolRecord, then: Flow, context: Context): Move {
  const says = [nowTalkingOf(poolName(pool))];
  const set = { pool: pool.id };
  const record = pool.cases.findLast(({ closedAt }) => closedAt === undefined);
  if (record === undefined) return { flow: then, says, set };
  const move = resumed({ pool, record }, context);
  return { ...move, set, says: [...says, ...(move.says ?? [])] };
}

function nowTalkingOf(pool: Text): Say {
  return info('pool-chosen', text('dialogue:pool.chosen', { pool }));
}

/** What the new pool is called. */
export function askPoolName(): Say[] {
  return [{ ...question('pool-name', text('dialogue:pool.name'), []), expects: 'name' }];
}

/** Creates a pool with the name given. */
export function answerPoolName(flow: NameFlow, event: Understood, { facts }: Context): Move | undefined {
  const name = event.kind === 'unclear' ? event.text.trim().slice(0, LONGEST_NAME) : '';
  if (name === '') return undefined;
  const says = [nowTalkingOf(text('dialogue:pool.named', { name }))];
  const pool = facts.freshId;
  return { flow: flow.then, set: { pool }, changes: [{ do: 'create-pool', pool, name }], says };
}

/** Goes to the pool with this name; undefined where there is none. */
export function poolCalled(name: string, then: Flow, context: Context): Move | undefined {
  const wanted = name.trim().toLocaleLowerCase();
  const pool = context.facts.pools.find((known) => known.name.toLocaleLowerCase() === wanted);
  return pool && turnedTo(pool, then, context);
}

function caseLine(record: CaseRecord): Text {
  return text(`dialogue:history.${record.outcome ?? 'open'}`, {
    when: { at: record.openedAt },
    complaint: text(`complaints:${record.complaint}.name`),
    fault: record.fault === undefined ? '' : faultName(record.fault),
  });
}

function readingLine({ quantity, value, clean, at }: Reading): Text {
  return text(clean ? 'dialogue:history.clean-reading' : 'dialogue:history.reading', {
    when: { at },
    gauge: text(`checks:${quantity}.name`),
    reading: { quantity, value },
  });
}

function historyLines(pool: PoolRecord): Text[] {
  const cases = pool.cases.slice(-CASES_SHOWN).reverse().map(caseLine);
  const readings = pool.readings.slice(-READINGS_SHOWN).reverse().map(readingLine);
  return [...cases, ...readings];
}

/** The last cases and readings of the pool. */
export function history(context: Context): Say {
  const pool = currentPool(context);
  const lines = pool === undefined ? [] : historyLines(pool);
  if (pool === undefined || lines.length === 0) return info('history', text('dialogue:history.empty'));
  return info(
    'history',
    text('dialogue:history.head', { pool: poolName(pool) }),
    ...lines,
    ...filterTrend(pool),
  );
}
