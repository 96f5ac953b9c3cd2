import { setTimeout as pause } from 'node:timers/promises';
import { describe, expect, it } from 'vitest';
import type { FaultPlan } from '../fake-bot-api/faults.ts';
import { mixedFaults, seeded } from '../fake-bot-api/faults.ts';
import type { Person } from '../fake-bot-api/person.ts';
import { personAt } from '../fake-bot-api/person.ts';
import { startRig } from '../fake-bot-api/rig.ts';
import { storedOf } from '../fake-bot-api/stored.ts';

const PEOPLE = 24;
const TURNS = 14;

/** Whether the message is another question than the one answered last: what comes once more is not answered again. */
function keyOf(data: string): number {
  return Number(data.split(':')[0]);
}

/** Plays some turns: presses and typed readings by turns, the same for the same n. */
async function played(person: Person, n: number): Promise<void> {
  person.says('/start');
  let version = 0;
  for (let turn = 0; turn < TURNS; turn += 1) {
    const until = Date.now() + 30_000;
    const newest = (): string | undefined =>
      person.messages().findLast(({ keyboard }) => keyboard.length > 0)?.keyboard[0]?.[0]?.callback_data;
    let isReopened = false;
    while (keyOf(newest() ?? '0') <= version) {
      if (Date.now() > until) throw new Error(`No new question for ${person.id} after turn ${turn}`);
      // A case that is closed asks nothing more: the next one is begun, once.
      if (!isReopened && person.last()?.text.startsWith('Anything else') === true) {
        isReopened = true;
        person.says('/new');
      }
      await pause(10);
    }
    version = keyOf(newest()!);
    const buttons = person
      .question()
      .keyboard.flat()
      .filter(({ callback_data }) => !callback_data.endsWith('more'));
    if ((n + turn) % 5 === 4) person.says('/why');
    else person.forges(buttons[(n + turn) % buttons.length]!.callback_data, person.question());
  }
}

async function run(
  faults: FaultPlan | undefined,
): Promise<{ stored: string[][]; failures: number; violations: string[] }> {
  const rig = await startRig({ timing: { stallMs: 1500 } });
  let failures = 0;
  rig.fake.faults = (method, chat) => {
    const fault = faults?.(method, chat);
    if (fault !== undefined) failures += 1;
    return fault;
  };
  const people = Array.from({ length: PEOPLE }, (_, n) => personAt(rig.fake, 2000 + n));
  await Promise.all(people.map(played));
  rig.fake.faults = undefined;
  await rig.settled();
  // Buttons that could not be taken off while calls failed come off with the next message.
  for (const person of people) person.says('/help');
  await rig.settled();
  const stored = people.map(({ id }) => storedOf(rig.file, `telegram:${id}`));
  const { violations } = rig.fake;
  await rig.close();
  return { stored, failures, violations };
}

describe('a platform on which one call in ten fails', () => {
  it('should end with the same stored state as one on which none fails', async () => {
    const calm = await run(undefined);
    const stormy = await run(mixedFaults(0.1, seeded(7)));
    console.log(`calls failed on demand: ${stormy.failures}; rows compared: ${calm.stored.flat().length}`);
    expect(calm.failures).toBe(0);
    expect(stormy.failures).toBeGreaterThan(50);
    expect(stormy.stored).toEqual(calm.stored);
    expect([...calm.violations, ...stormy.violations]).toEqual([]);
  });
});
