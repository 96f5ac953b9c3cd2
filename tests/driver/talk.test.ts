import { describe, expect, it } from 'vitest';
import { play } from './play.ts';
import { startTalk } from './talk.ts';

const POOL = { name: 'Invented pool', equipment: { cleaner: 'suction' }, clean: {} } as const;

describe('a conversation in the same process', () => {
  it('should say the same words each time it is played', () => {
    const once = (): string => {
      const talk = startTalk({ role: 'owner', pool: POOL });
      const heard = play(talk, { kind: 'text', text: 'my cleaner does not move' }, ({ options = [] }) => ({
        kind: 'choose',
        option: options[0]?.id ?? 'skip',
      }));
      talk.close();
      return JSON.stringify(heard);
    };
    expect(once()).toBe(once());
  });

  it('should ask for the role first where it is not given', () => {
    const talk = startTalk();
    expect(talk.say('/start').at(-1)?.id).toBe('role');
    talk.close();
  });

  it('should ask whether a case left for more than a day still matters', () => {
    const talk = startTalk({ role: 'owner', pool: POOL });
    talk.say('my cleaner does not move');
    while (talk.state() === 'profile') talk.choose('skip');
    expect(talk.state()).toBe('consult');
    talk.wait(25 * 60 * 60 * 1000);
    expect(talk.say('yes').at(-1)?.id).toBe('still-open');
    talk.close();
  });

  // "2" for the second answer was taken for two inches of mercury.
  it('should not offer to type the number of an answer where a gauge is asked for', () => {
    const talk = startTalk({ role: 'owner', pool: POOL });
    expect(talk.say('/readings').at(-1)?.kind).toBe('reading');
    const [unclear] = talk.say('ok');
    expect(unclear).toMatchObject({ id: 'unclear', text: expect.stringContaining('in words') as string });
    talk.close();
  });
});
