/** Random walks through the dialogues, each step judged by an observer who knows only what a person sees. */
import fc from 'fast-check';
import { expect } from 'vitest';
import { equipmentFor } from '../../src/dialogues/case-view.ts';
import type { CommandId, Understood } from '../../src/dialogues/event.ts';
import type { Option, Say } from '../../src/dialogues/say.ts';
import type { ComplaintId } from '../../src/knowledge/ids.ts';
import { EMERGENCY_IDS, isQuantity } from '../../src/knowledge/ids.ts';
import type { Equipment, Role } from '../../src/knowledge/schema.ts';
import { ROLES } from '../../src/knowledge/schema.ts';
import { fits, TRADE } from '../../src/knowledge/trade.ts';
import { afterShown, afterTold, breach, NOTHING_SEEN, observe } from './safety.ts';
import type { Observed } from './safety.ts';
import { atThePool, next, open } from './walker.ts';
import type { Place } from './walker.ts';

const POOLS: readonly Equipment[] = [
  {
    cleaner: 'suction',
    connection: 'skimmer',
    canister: 'yes',
    pump: 'single-speed',
    filter: 'de',
    multiport: 'yes',
  },
  { cleaner: 'suction', connection: 'port', canister: 'no', pump: 'variable-speed', filter: 'cartridge' },
  { cleaner: 'pressure-booster', pump: 'two-speed', filter: 'sand', multiport: 'yes' },
  { cleaner: 'robotic' },
  {},
];
const LONGEST_WALK = 18;
const ANY_TIME: readonly CommandId[] = [
  'back',
  'help',
  'why',
  'skip',
  'unsure',
  'repeat',
  'stop',
  'pool',
  'readings',
  'history',
];

export function command(id: CommandId): Understood {
  return { kind: 'command', id };
}

/** What a person might do with a message: choose any option, send a reading, or say one of the words of any time. */
function reply(say: Say | undefined, draw: number): Understood {
  const options: readonly Option[] = say?.options ?? [];
  const reads = say !== undefined && isQuantity(say.id) && say.expects === 'reading';
  const choices = options.length + (reads ? 3 : 0);
  const wordOf = (n: number): Understood => command(ANY_TIME[n % ANY_TIME.length]!);
  if (choices === 0 || draw % 10 === 9) return wordOf(Math.floor(draw / 10));
  const choice = Math.floor(draw / 10) % choices;
  const option = options[choice];
  if (option !== undefined) return { kind: 'answer', option: option.id };
  const value = 4 + ((draw * 7) % 40);
  const unit = say?.id === 'filter-pressure' ? 'psi' : say?.id === 'wheel-turns' ? 'turns/min' : 'inHg';
  return isQuantity(say?.id ?? '')
    ? { kind: 'readings', readings: [{ quantity: say!.id as 'filter-pressure', value, unit }] }
    : wordOf(draw);
}

export function hasNoDeadEnd(place: Place): void {
  const waiting = open(place) ?? open(next(place, command('repeat')));
  expect(waiting, `dead end at ${JSON.stringify(place.conversation.flow)}`).toBeDefined();
}

export function wordsOfAnyTimeWork(place: Place): void {
  for (const id of ['help', 'why', 'stop', 'back'] as const)
    expect(next(place, command(id)).says.length, `/${id} says nothing`).toBeGreaterThan(0);
  expect(next(place, command('stop')).conversation.flow.at).toBe('complaint');
  const id = EMERGENCY_IDS[place.turns % EMERGENCY_IDS.length]!;
  const stopped = next(place, { kind: 'emergency', id });
  expect(stopped.says.map(({ outcome }) => outcome)).toContain('emergency');
}

function equipmentNow(place: Place): Equipment {
  const pool = place.pools.find(({ id }) => id === place.conversation.pool);
  const complaint = pool?.cases.at(-1)?.complaint;
  return complaint === undefined ? (pool?.equipment ?? {}) : equipmentFor(complaint, pool?.equipment ?? {});
}

interface Walk {
  role: Role;
  pool: Equipment;
  complaint: ComplaintId;
  draws: readonly number[];
}

function walk({ role, pool, complaint, draws }: Walk): { steps: number; deepest: number } {
  let place = next(atThePool(role, pool), { kind: 'answer', option: complaint });
  let seen: Observed = NOTHING_SEEN;
  let steps = 0;
  for (const [index, draw] of draws.entries()) {
    const asked = open(place);
    // Outside a case a gauge is read whenever the person likes.
    if (asked !== undefined && place.conversation.flow.at === 'consult') {
      expect(breach(asked, seen, role, equipmentNow(place))).toBeUndefined();
      steps += asked.kind === 'check' || asked.kind === 'repair' ? 1 : 0;
      seen = afterShown(seen, asked);
    }
    const event = reply(asked, draw);
    // An answer taken back leaves nothing that was acknowledged to be relied on; a detour left does.
    const takesBack =
      event.kind === 'command' && event.id === 'back' && place.conversation.flow.at === 'consult';
    if (takesBack || (event.kind === 'command' && event.id === 'stop')) seen = NOTHING_SEEN;
    seen = observe(seen, asked, event);
    place = next(place, event);
    seen = afterTold(seen, place.says);
    hasNoDeadEnd(place);
    if (index % 8 === 7) wordsOfAnyTimeWork(place);
  }
  return { steps, deepest: draws.length };
}

const complaintsAt = (pool: Equipment): ComplaintId[] =>
  TRADE.complaints.filter(({ when }) => fits(when, pool)).map(({ id }) => id);

/** Takes so many random walks and prints what was seen. Fails at the first step that is not safe. */
export function takeWalks(walks: number, seed: number): void {
  let steps = 0;
  let turns = 0;
  const anyWalk = fc
    .record({ role: fc.constantFrom(...ROLES), pool: fc.constantFrom(...POOLS) })
    .chain(({ role, pool }) =>
      fc.record({
        role: fc.constant(role),
        pool: fc.constant(pool),
        complaint: fc.constantFrom(...complaintsAt(pool)),
        draws: fc.array(fc.nat(9999), { maxLength: LONGEST_WALK }),
      }),
    );
  fc.assert(
    fc.property(anyWalk, (one) => {
      const result = walk(one);
      steps += result.steps;
      turns += result.deepest;
    }),
    { numRuns: walks, seed },
  );
  console.log(`${walks} walks, seed ${seed}: ${turns} turns, ${steps} steps shown, no breach`);
}
