/** Finding one of a company's pools among many. */
import { permit } from '../access.ts';
import type { Context, Flow, Move } from '../conversation.ts';
import type { Understood } from '../event.ts';
import type { Option, Say } from '../say.ts';
import { info, question, text } from '../say.ts';
import type { PoolLine } from './company.ts';
import { inviteOwner, messageForOwner } from './invite.ts';
import type { Permit } from './permit.ts';
import { saidAndBack } from './words.ts';

type FindFlow = Extract<Flow, { at: 'find-pool' }>;

const SHOWN = 8;

function label({ name, reference }: PoolLine): Option['label'] {
  return text('company:find.item', { name, reference });
}

/** Which pool: some to choose from, and room for a part of its name. */
export function askFindPool(flow: FindFlow, { facts }: Context): Say[] {
  const given = permit({ flow: 'find-pool' }, flow.company, facts);
  const found = given === undefined ? [] : facts.office.pools(given, flow.text, SHOWN);
  const options = found.map((pool): Option => ({ id: pool.id, label: label(pool) }));
  const ask = text(found.length === 0 ? 'company:find.none' : 'company:find.ask');
  return [{ ...question('find-pool', ask, options), expects: 'name' }];
}

function talkAbout(pool: PoolLine, then: Flow): Move {
  const says = info('pool-chosen', text('dialogue:pool.chosen', { pool: pool.name }));
  const home: Flow = then.at === 'consult' ? { at: 'complaint' } : then;
  return { ...saidAndBack(home, says), set: { pool: pool.id } };
}

function picked(flow: FindFlow, pool: PoolLine, given: Permit, context: Context): Move {
  const { purpose, then } = flow;
  if (purpose === 'talk') return talkAbout(pool, then);
  if (pool.isOwned)
    return saidAndBack(then, info('pool-owned', text('company:find.owned', { pool: pool.name })));
  // A link is given by the office alone, whoever may look for pools.
  const office = permit({ command: purpose }, given.company.id, context.facts);
  if (office === undefined) return saidAndBack(then, info('not-allowed', text('company:not-allowed')));
  return purpose === 'invite'
    ? inviteOwner(office, pool, then, context)
    : messageForOwner(office, pool, then, context);
}

/** Looks for pools by a text: goes on with the only one, or offers those that were found. */
export function findPool(flow: FindFlow, said: string, given: Permit, context: Context): Move {
  const found = context.facts.office.pools(given, said, 2);
  const [only] = found;
  if (only !== undefined && found.length === 1) return picked(flow, only, given, context);
  const again: Flow = { ...flow, text: said };
  return {
    flow: found.length === 0 ? { ...again, text: '' } : again,
    says: found.length === 0 ? [noSuch(said)] : [],
  };
}

function noSuch(said: string): Say {
  return info('no-such-pool', text('company:find.no-such', { text: said }));
}

/** Goes on with the pool chosen, or looks for what was typed. */
export function answerFindPool(flow: FindFlow, event: Understood, context: Context): Move | undefined {
  const given = permit({ flow: 'find-pool' }, flow.company, context.facts);
  if (given === undefined) return undefined;
  if (event.kind === 'answer') {
    const pool = context.facts.office.pool(given, event.option);
    return pool && picked(flow, pool, given, context);
  }
  return event.kind === 'unclear' ? findPool(flow, event.text, given, context) : undefined;
}
