/** Two companies on one bot: whatever their people do, nothing of one ever reaches a person of the other. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { Message } from '../../src/dialogues/message.ts';
import type { Crowd } from '../driver/crowd.ts';
import { payloadIn, startCrowd } from '../driver/crowd.ts';

/** Every name of a company, its people and its pools holds its mark; references and ids are alike in both. */
const MARKS = ['Heron', 'Foxglove'] as const;
type Mark = (typeof MARKS)[number];

const PEOPLE = ['admin', 'desk', 'tech', 'tech2', 'owner1', 'owner2'] as const;
const poolsOf = (mark: Mark): string =>
  [
    'reference,name,address,cleaner,clean-filter-pressure',
    ...[1, 2, 3, 4].map((n) => `P-${n},Garden ${n} ${mark},Lane ${n} ${mark},suction,${10 + n} psi`),
  ].join('\n');

function twoCompanies(): Crowd {
  const crowd = startCrowd('en');
  for (const mark of MARKS) {
    const admin = `admin${mark}`;
    const id = crowd.company(`${mark} Pools`, admin);
    crowd.sendFile(admin, poolsOf(mark));
    crowd.choose(admin, 'yes');
    crowd.say(admin, '/staff', `group${mark}`);
    crowd.join(`desk${mark}`, id, 'dispatcher');
    crowd.join(`tech${mark}`, id, 'technician');
    crowd.join(`tech2${mark}`, id, 'technician');
    for (const n of [1, 2])
      crowd.join(`owner${n}${mark}`, id, 'owner', crowd.poolCalled(`Garden ${n} ${mark}`));
  }
  return crowd;
}

const WORDS = [
  ...[
    '/invite',
    '/invitations',
    '/people',
    '/company',
    '/staff',
    '/import',
    '/export',
    '/send',
    '/find',
    '/leave',
  ],
  ...[
    '/find garden',
    '/find P-3',
    '/send garden 3',
    '/send P-4',
    '/pools',
    '/pool',
    '/history',
    '/privacy',
    '/help',
  ],
  ...[
    '/new',
    '/why',
    '/back',
    '/stop',
    '/erase',
    '/pool Garden 1',
    '/estimates',
    '/readings',
    '/report week',
    '/report',
    '/zone Madrid',
    'garden',
    'P-4',
    '2',
  ],
  ...['my cleaner does not move', 'filter 22 psi', 'it is fine', 'yes', 'no', 'technician', 'owner'],
];

interface Deed {
  who: number;
  what: number;
  kind: 'word' | 'option' | 'stolen-option' | 'file' | 'in-group' | 'later' | 'button-in-group';
}

const anyDeed = fc.record({
  who: fc.nat(PEOPLE.length * 2),
  what: fc.nat(10_000),
  kind: fc.constantFrom<Deed['kind']>(
    ...(['word', 'word', 'option', 'option', 'option', 'stolen-option'] as const),
    ...(['file', 'in-group', 'later', 'button-in-group'] as const),
  ),
});

/** The person who acts and the company they belong to; the last one is a stranger to both. */
function actorOf(who: number): { person: string; mark: Mark | undefined } {
  const mark = MARKS[Math.floor(who / PEOPLE.length)];
  const name = PEOPLE[who % PEOPLE.length]!;
  return mark === undefined ? { person: 'stranger', mark } : { person: `${name}${mark}`, mark };
}

const optionsOf = (messages: readonly Message[]): string[] =>
  messages.flatMap(({ options = [] }) => options.map(({ id }) => id));

function act({ who, what, kind }: Deed, crowd: Crowd): void {
  const { person, mark = 'Heron' } = actorOf(who);
  const word = WORDS[what % WORDS.length]!;
  const own = crowd.got.filter(({ conversation }) => conversation === `test:${person}`);
  const last = own.at(-1)?.message;
  const shown = optionsOf(last === undefined ? [] : [last]);
  // Ids that somebody else was shown, as one who looked over a shoulder or guessed would send them.
  const stolen = optionsOf(crowd.got.map(({ message }) => message));
  const anyStolen = stolen[what % stolen.length] ?? 'yes';
  switch (kind) {
    case 'word':
      crowd.say(person, word);
      break;
    case 'option':
      if (shown.length === 0) crowd.say(person, word);
      else crowd.choose(person, shown[what % shown.length]!);
      break;
    case 'stolen-option':
      crowd.choose(person, anyStolen);
      break;
    case 'file':
      crowd.sendFile(person, poolsOf(mark));
      break;
    case 'in-group':
      crowd.say(person, word, `group${mark}`);
      break;
    case 'button-in-group':
      crowd.choose(person, anyStolen, `group${mark}`);
      break;
    case 'later':
      crowd.wait(((what % 40) + 1) * 3_600_000);
  }
}

/** Messages in a conversation of one company, or of none, that hold the mark of another. */
function leaks(crowd: Crowd): string[] {
  return crowd.got.flatMap(({ conversation, message }) => {
    // It only says back the option that the person sent, which here may have been stolen from the other company.
    if (message.id === 'unknown-option') return [];
    const mine = MARKS.find((mark) => conversation.includes(mark));
    const held = JSON.stringify(message);
    return MARKS.filter((mark) => mark !== mine && held.includes(mark)).map(
      (mark) => `${conversation} got ${mark}: ${message.id} ${message.text.slice(0, 80)}`,
    );
  });
}

/** What an export writes for whoever asked for it. */
function exportsLeak(crowd: Crowd): string[] {
  return crowd.got.flatMap(({ conversation, message }) => {
    if (message.file?.holds !== 'pools') return [];
    const mine = MARKS.find((mark) => conversation.includes(mark));
    const written = crowd.store.pools.written(message.file.company);
    return MARKS.filter((mark) => mark !== mine && written.includes(mark)).map(
      (mark) => `${conversation} ${mark}`,
    );
  });
}

/** Everything that belongs to a company. */
function rowsOfCompany({ database }: Crowd, name: string): unknown {
  const id = database
    .prepare<[string], { id: string }>('SELECT id FROM company WHERE name = ?')
    .get(name)?.id;
  const all = (sql: string): unknown[] => database.prepare(sql).all(id);
  return [
    all('SELECT * FROM company WHERE id = ?'),
    all('SELECT * FROM membership WHERE company = ? ORDER BY person, role'),
    all('SELECT * FROM invitation WHERE company = ? ORDER BY id'),
    all('SELECT * FROM company_pool WHERE company = ? ORDER BY pool'),
    all('SELECT pool.* FROM pool JOIN company_pool ON pool = pool.id WHERE company = ? ORDER BY pool.id'),
    all('SELECT equipment.* FROM equipment JOIN company_pool USING (pool) WHERE company = ? ORDER BY id'),
    all('SELECT consult.* FROM consult JOIN company_pool USING (pool) WHERE company = ? ORDER BY id'),
  ];
}

describe('two companies on one bot', () => {
  it('should tell apart a leak: the mark of a company reaches its own people', () => {
    const crowd = twoCompanies();
    crowd.say('techHeron', '/find garden');
    expect(
      crowd.got.filter(({ message }) => JSON.stringify(message).includes('Heron')).length,
    ).toBeGreaterThan(8);
    crowd.got.push({
      conversation: 'test:techFoxglove',
      message: { kind: 'info', id: 'x', text: 'Garden 1 Heron' },
    });
    expect(leaks(crowd)).toHaveLength(1);
    crowd.close();
  });

  it('should stay apart under random deeds of random people', { timeout: 600_000 }, () => {
    const kinds = new Map<string, number>();
    let messages = 0;
    fc.assert(
      fc.property(fc.array(anyDeed, { minLength: 20, maxLength: 45 }), (deeds) => {
        const crowd = twoCompanies();
        for (const deed of deeds) act(deed, crowd);
        for (const { message } of crowd.got) kinds.set(message.id, (kinds.get(message.id) ?? 0) + 1);
        messages += crowd.got.length;
        expect(leaks(crowd)).toEqual([]);
        expect(exportsLeak(crowd)).toEqual([]);
        expect(crowd.got.filter(({ message }) => message.id === 'internal')).toEqual([]);
        crowd.close();
      }),
      { numRuns: 120, seed: 20_300_601 },
    );
    console.log(`${messages} messages of ${kinds.size} kinds, none astray`);
    // The deeds reach far enough to mean something.
    for (const id of [
      'invitation',
      'ready-message',
      'find-pool',
      'people',
      'company-settings',
      'pools',
      'import-same',
      'not-allowed',
    ])
      expect([id, (kinds.get(id) ?? 0) > 0]).toEqual([id, true]);
  });

  it('should not change a row of one company by the deeds of the other', { timeout: 600_000 }, () => {
    fc.assert(
      fc.property(fc.array(anyDeed, { minLength: 20, maxLength: 45 }), (deeds) => {
        const crowd = twoCompanies();
        // The others have something to be meddled with.
        crowd.say('adminFoxglove', '/invite');
        crowd.choose('adminFoxglove', 'technician');
        crowd.say('adminFoxglove', '/people');
        const rows = (): unknown => rowsOfCompany(crowd, 'Foxglove Pools');
        const before = rows();
        for (const deed of deeds) act({ ...deed, who: deed.who % PEOPLE.length }, crowd);
        for (const option of optionsOf(crowd.got.map(({ message }) => message)))
          crowd.choose('adminHeron', option);
        expect(rows()).toEqual(before);
        crowd.close();
      }),
      { numRuns: 25, seed: 20_300_602 },
    );
  });

  it('should let a person of both companies choose, and mix nothing', () => {
    const crowd = twoCompanies();
    const link = payloadIn(
      [...crowd.say('adminFoxglove', '/invite'), ...crowd.choose('adminFoxglove', 'technician')]
        .map(({ text }) => text)
        .join(),
    );
    crowd.say('techHeron', `/start ${link}`);
    crowd.choose('techHeron', 'yes');
    crowd.say('techHeron', 'Both');
    const [which] = crowd.say('techHeron', '/find garden');
    expect(which?.options?.map(({ label }) => label)).toEqual(['Heron Pools', 'Foxglove Pools']);
    const found = crowd.choose('techHeron', which!.options![1]!.id);
    expect(JSON.stringify(found)).toContain('Foxglove');
    expect(JSON.stringify(found)).not.toContain('Heron');
    crowd.close();
  });
});
