/** A conversation held in memory, one event after another, with the record kept as the store would keep it. */
import { NO_OFFICE } from '../../src/dialogues/company/office.ts';
import type { Conversation } from '../../src/dialogues/conversation.ts';
import { newConversation } from '../../src/dialogues/conversation.ts';
import type { Event } from '../../src/dialogues/event.ts';
import type { Facts, PoolRecord } from '../../src/dialogues/record.ts';
import { withChange } from '../../src/dialogues/record.ts';
import type { Say } from '../../src/dialogues/say.ts';
import { turn } from '../../src/dialogues/turn.ts';
import type { Equipment, Role } from '../../src/knowledge/schema.ts';

export interface Place {
  conversation: Conversation;
  pools: readonly PoolRecord[];
  says: readonly Say[];
  turns: number;
}

const START = Date.UTC(2026, 3, 1);
const A_MINUTE = 60_000;

/** A person at a pool with this equipment, asked what is wrong. */
export function atThePool(role: Role, equipment: Equipment): Place {
  const pool: PoolRecord = {
    id: 'pool',
    name: '',
    equipment,
    figures: {},
    missing: [],
    readings: [],
    cases: [],
  };
  const conversation = { ...newConversation('en', role, { at: 'complaint' }), pool: 'pool', heardAt: START };
  return { conversation, pools: [pool], says: [], turns: 0 };
}

/** A person nobody knows yet. */
export function atTheDoor(): Place {
  const flow = { at: 'language', then: { at: 'role', then: { at: 'complaint' } } } as const;
  return { conversation: newConversation('en', 'owner', flow), pools: [], says: [], turns: 0 };
}

export function facts(place: Place): Facts {
  return {
    now: START + place.turns * A_MINUTE,
    freshId: `id-${place.turns}`,
    pools: place.pools,
    person: 'somebody',
    chat: 'talk',
    memberships: [],
    office: NO_OFFICE,
    freshLink: { payload: 'j-none', address: '/start j-none' },
  };
}

/** The place after an event; state and record pass through JSON, as they do between any two turns. */
export function next(place: Place, event: Event): Place {
  const before = JSON.parse(JSON.stringify(place)) as Place;
  const { conversation, changes, says } = turn(before.conversation, event, facts(before));
  const { pools } = changes.reduce(withChange, facts(before));
  return { conversation, pools, says, turns: place.turns + 1 };
}

/** The message that waits for an answer, if one does. */
export function open(place: Place): Say | undefined {
  const last = place.says.at(-1);
  return last?.options === undefined && last?.expects === undefined ? undefined : last;
}
