import { describe, expect, it } from 'vitest';
import { atTheDoor, next, open } from './walker.ts';
import type { Place } from './walker.ts';
import { command, hasNoDeadEnd, takeWalks, wordsOfAnyTimeWork } from './walk.ts';

describe('walks through the dialogues', () => {
  it('should be safe, without dead ends, and open to the words of any time', { timeout: 1_800_000 }, () => {
    takeWalks(5000, 20_260_402);
  });

  it('should reach every state outside a consult breadth-first, and find the way on from each', () => {
    const seen = new Map<string, Place>();
    const queue: Place[] = [next(atTheDoor(), command('start'))];
    const name = ({ conversation, pools }: Place): string =>
      JSON.stringify([
        conversation.flow,
        conversation.locale,
        conversation.role,
        pools.map(({ equipment }) => equipment.cleaner),
      ]);
    for (let place = queue.shift(); place !== undefined; place = queue.shift()) {
      if (place.turns > 6 || place.conversation.flow.at === 'consult' || seen.has(name(place))) continue;
      seen.set(name(place), place);
      hasNoDeadEnd(place);
      wordsOfAnyTimeWork(place);
      const asked = open(place);
      for (const { id } of asked?.options ?? []) queue.push(next(place, { kind: 'answer', option: id }));
      for (const id of ['pool', 'pools', 'language', 'erase', 'readings'] as const)
        queue.push(next(place, command(id)));
      if (asked?.expects === 'name') queue.push(next(place, { kind: 'unclear', text: 'Back garden' }));
    }
    const flows = new Set([...seen.values()].map(({ conversation }) => conversation.flow.at));
    console.log(`${seen.size} states outside a consult, of ${flows.size} kinds: ${[...flows].join(', ')}`);
    expect([...flows].sort()).toEqual(
      [
        'complaint',
        'edit-equipment',
        'edit-pool',
        'erase',
        'gauge',
        'language',
        'pool-name',
        'pools',
        'profile',
        'role',
      ].sort(),
    );
  });
});
