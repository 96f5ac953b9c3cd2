/** Inviting links: who gets in by them, and that every link that does not open is answered alike. */
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { OPEN_TRIES, OWNER_LINK_MS, STAFF_LINK_MS, waitAfter } from '../../src/dialogues/company/link.ts';
import type { Message } from '../../src/dialogues/message.ts';
import type { Crowd } from '../driver/crowd.ts';
import { payloadIn, startCrowd } from '../driver/crowd.ts';
import { allRows } from '../store/fixtures.ts';

const POOLS = 'reference,name,language\nA-1,Garden of Ada,es\nA-2,Garden of Bo,\n';

let crowd: Crowd;
let company: string;
beforeEach(() => {
  crowd = startCrowd('en');
  company = crowd.company('Blue Heron Pools', 'ann');
  crowd.sendFile('ann', POOLS);
  crowd.choose('ann', 'yes');
});
afterEach(() => crowd.close());

const idsOf = (messages: readonly Message[]): string[] => messages.map(({ id }) => id);
const roles = (person: string): string[] =>
  crowd.store.load(`test:${person}`, `test:${person}`).memberships.map(({ role }) => role);

/** The messages that an administrator gets for a link of a role. */
function invited(role: string, pool?: string): Message[] {
  crowd.say('ann', '/invite');
  const first = crowd.choose('ann', role);
  return pool === undefined ? first : crowd.say('ann', pool);
}

const linkOf = (messages: readonly Message[]): string => payloadIn(messages.map(({ text }) => text).join());

describe('a link that invites', () => {
  it('should be one that the platform takes, with 128 random bits in it', () => {
    const [message] = invited('technician');
    const [, address, payload = ''] = /(https:\/\/t\.me\/invented_bot\?start=([\w-]+))/.exec(message!.text)!;
    expect(address).toBeDefined();
    // Bot API documentation, deep linking: up to 64 characters of A-Z, a-z, 0-9, _ and -.
    expect(payload).toMatch(/^[\w-]{1,64}$/);
    expect(Buffer.from(payload.slice(2), 'base64url')).toHaveLength(16);
  });

  it('should come with a picture of the same link', () => {
    const messages = invited('technician');
    const picture = messages.find(({ kind }) => kind === 'picture')?.picture;
    expect(payloadIn(picture?.draw === 'link-code' ? picture.address : '')).toBe(linkOf(messages));
  });

  it('should let a technician in, once the technician says yes, under a name of their own', () => {
    const link = linkOf(invited('technician'));
    const [asked] = crowd.say('tom', `/start ${link}`);
    expect(asked?.text).toContain('Blue Heron Pools');
    expect(roles('tom')).toEqual([]);
    crowd.choose('tom', 'yes');
    expect(roles('tom')).toEqual(['technician']);
    crowd.say('tom', 'Tomás');
    expect(
      crowd
        .say('ann', '/people')
        .at(-1)
        ?.options?.map(({ label }) => label),
    ).toContain('Tomás, technician');
  });

  it('should let nobody in who says no', () => {
    const link = linkOf(invited('technician'));
    crowd.say('tom', `/start ${link}`);
    crowd.choose('tom', 'no');
    expect(roles('tom')).toEqual([]);
  });

  it('should give an owner the one pool it is for', () => {
    const link = linkOf(invited('owner', 'Ada'));
    crowd.say('ada', `/start ${link}`);
    crowd.choose('ada', 'yes');
    const { pools } = crowd.store.load('test:ada', 'test:ada');
    expect(pools.map(({ name }) => name)).toEqual(['Garden of Ada']);
    expect(pools[0]?.company?.name).toBe('Blue Heron Pools');
  });

  it('should ask a new person for the language first and then offer what it offers', () => {
    const other = startCrowd();
    const heron = other.company('Heron', 'ann');
    const payload = 'j-AAAAAAAAAAAAAAAAAAAAAA';
    other.store.invitations.add(
      { id: 'one', payload, company: heron, role: 'technician', expiresAt: other.now() + 1e6 },
      other.now(),
    );
    expect(idsOf(other.say('nora', `/start ${payload}`))).toEqual(['language']);
    const [offer] = other.choose('nora', 'es');
    expect(offer?.text).toContain('Heron le invita');
    other.close();
  });

  it('should leave nothing of its secret in the database once it was delivered and opened', () => {
    const link = linkOf(invited('technician'));
    crowd.say('tom', `/start ${link}`);
    crowd.choose('tom', 'yes');
    expect(JSON.stringify(allRows(crowd.database))).not.toContain(link.slice(2));
  });
});

it('should not be spoken, nor kept as something to be spoken, for a person who wants replies aloud', () => {
  crowd.say('ann', '/voice on');
  const link = linkOf(invited('technician'));
  expect(link).not.toBe('');
  const held = JSON.stringify(allRows(crowd.database));
  expect(held).not.toContain(link.slice(2));
  expect(held).not.toContain('Link for one person');
});

describe('a link that does not open', () => {
  const REFUSAL = 'link-refused';
  const answers = (person: string, link: string): string[] =>
    crowd.say(person, `/start ${link}`).map(({ id, text }) => (id === REFUSAL ? text : id));
  const ways: Record<string, () => string> = {
    guessed: () => 'j-BBBBBBBBBBBBBBBBBBBBBB',
    'cut short': () => linkOf(invited('technician')).slice(0, -1),
    used: () => {
      const link = linkOf(invited('technician'));
      crowd.say('first', `/start ${link}`);
      crowd.choose('first', 'yes');
      return link;
    },
    expired: () => {
      const link = linkOf(invited('technician'));
      crowd.wait(STAFF_LINK_MS + 1000);
      return link;
    },
    'revoked by its button': () => {
      const messages = invited('technician');
      crowd.choose('ann', messages[0]!.options![0]!.id);
      return linkOf(messages);
    },
    'revoked in the list': () => {
      const link = linkOf(invited('technician'));
      const list = crowd.say('ann', '/invitations').at(-1);
      crowd.choose('ann', list!.options![0]!.id);
      return link;
    },
    "an owner's, of a pool that was taken over meanwhile": () => {
      const first = linkOf(invited('owner', 'Ada'));
      const second = linkOf(invited('owner', 'Ada'));
      crowd.say('ada', `/start ${first}`);
      crowd.choose('ada', 'yes');
      return second;
    },
    'long expired, for an owner': () => {
      const link = linkOf(invited('owner', 'Bo'));
      crowd.wait(OWNER_LINK_MS + 1000);
      return link;
    },
  };

  it('should be refused with one same message, whatever the reason', () => {
    const texts = Object.entries(ways).map(([name, link], index) => {
      const [text] = answers(`thief-${index}`, link());
      expect(text, name).toMatch(/does not open/);
      return text;
    });
    expect(new Set(texts).size).toBe(1);
  });

  it('should not open for the second of two who had it on the screen at once', () => {
    const link = linkOf(invited('technician'));
    crowd.say('tom', `/start ${link}`);
    crowd.say('eve', `/start ${link}`);
    crowd.choose('tom', 'yes');
    expect(idsOf(crowd.choose('eve', 'yes'))).not.toContain('joined');
    expect(roles('eve')).toEqual([]);
  });

  it('should slow a person down after ten tries: then even a good link waits', () => {
    for (let n = 0; n < OPEN_TRIES; n += 1) answers('eve', `j-${String(n).padStart(22, 'C')}`);
    const good = linkOf(invited('technician'));
    expect(answers('eve', good)[0]).toMatch(/does not open/);
    // Others are not slowed by it.
    expect(idsOf(crowd.say('tom', `/start ${good}`))).toEqual(['join']);
    crowd.wait(waitAfter(OPEN_TRIES + 1) + 1000);
    expect(idsOf(crowd.say('eve', `/start ${good}`))).toEqual(['join']);
  });

  it('should let ten tries pass without a wait', () => {
    for (let n = 1; n < OPEN_TRIES; n += 1) answers('eve', `j-${String(n).padStart(22, 'C')}`);
    expect(idsOf(crowd.say('eve', `/start ${linkOf(invited('technician'))}`))).toEqual(['join']);
  });

  it('should wait twice as long each time, up to a day', () => {
    const waits = Array.from({ length: 40 }, (_, n) => waitAfter(n));
    expect(waits.slice(0, OPEN_TRIES).every((ms) => ms === 0)).toBe(true);
    expect(waits.slice(OPEN_TRIES, OPEN_TRIES + 3)).toEqual([60_000, 120_000, 240_000]);
    expect(Math.max(...waits)).toBe(86_400_000);
  });
});

describe('leaving', () => {
  it('should leave the pool with its owner and take it off the company', () => {
    crowd.join('ada', company, 'owner', crowd.poolCalled('Garden of Ada'));
    crowd.say('ada', '/leave');
    crowd.choose('ada', 'yes');
    const { pools, memberships } = crowd.store.load('test:ada', 'test:ada');
    expect(memberships).toEqual([]);
    expect(pools.map(({ name, company: of }) => [name, of])).toEqual([['Garden of Ada', undefined]]);
    expect(idsOf(crowd.say('ann', '/find Ada'))).toContain('no-such-pool');
  });

  it('should not leave a company without an administrator', () => {
    crowd.say('ann', '/leave');
    expect(idsOf(crowd.choose('ann', 'yes'))).toEqual(['last-administrator']);
    expect(roles('ann')).toEqual(['administrator']);
  });

  it('should end what a person let go can do, also in a question that is open', () => {
    crowd.join('dan', company, 'dispatcher');
    expect(idsOf(crowd.say('dan', '/invite'))).toEqual(['invite']);
    const people = crowd.say('ann', '/people').at(-1);
    crowd.choose('ann', people!.options!.find(({ label }) => label.includes('dan'))!.id);
    crowd.choose('ann', 'yes');
    const told = crowd.got.filter(({ message }) => message.id === 'let-go');
    expect(told.map(({ conversation }) => conversation)).toEqual(['test:dan']);
    expect(idsOf(crowd.choose('dan', 'technician'))).not.toContain('invitation');
    expect(idsOf(crowd.say('dan', '/invite'))).toContain('not-allowed');
  });
});
