/**
 * A company's first line on the platform, with five people and two companies: import, invitations, an owner's consult
 * in Spanish, the brief, the visit, a closing in one line, the question two days later and the report. Whatever
 * anybody of one company sees, in a chat, a picture or a file, holds nothing of the other.
 */
import { randomUUID } from 'node:crypto';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { SeenMessage } from '../fake-bot-api/chats.ts';
import type { Person } from '../fake-bot-api/person.ts';
import { personAt } from '../fake-bot-api/person.ts';
import type { Rig } from '../fake-bot-api/rig.ts';
import { startRig } from '../fake-bot-api/rig.ts';

const DAY = 24 * 3_600_000;
/** By day in the zone of a company that has set none, UTC. */
const BEGAN = Date.UTC(2030, 5, 3, 10);
/** What is made out of the only voice note that is sent. */
const DICTATED = 'closed: full leaf canister, emptied it, 25 minutes, filter 14 psi';
const NOTE = { file_id: 'note-1', file_unique_id: 'note-1', duration: 8, file_size: 9000 };
const UNHURRIED = { burst: 1000, everyMs: 1000 };

/** Every name of a company, its people and its pools holds its mark. */
const MARKS = ['Heron', 'Foxglove'] as const;
type Mark = (typeof MARKS)[number];
const CHATS: Readonly<Record<Mark, readonly number[]>> = {
  Heron: [11, 12, 13, -100],
  Foxglove: [21, 22, -200],
};

let rig: Rig;
let later = 0;
const began = Date.now();

async function did(act: () => unknown): Promise<void> {
  act();
  await rig.settled();
}

function lastOf(person: Person): SeenMessage {
  return person.last()!;
}

function payloadOf(messages: readonly SeenMessage[]): string {
  return /j-[\w-]{22}/.exec(messages.map(({ text }) => text).join('\n'))?.[0] ?? '';
}

interface Staffed {
  mark: Mark;
  admin: Person;
  group: Person;
}

const poolsOf = (mark: Mark): string =>
  [
    'reference,name,address,language,cleaner,connection,canister,pump,filter,clean-filter-pressure',
    `P-1,Garden ${mark},Lane ${mark} 1,es,suction,skimmer,yes,single-speed,cartridge,13 psi`,
    `P-2,Terrace ${mark},Lane ${mark} 2,en,suction,skimmer,yes,single-speed,cartridge,12 psi`,
  ].join('\n');

/** A company whose administrator comes by the first link, imports its pools and makes a group its staff chat. */
async function company(mark: Mark, adminId: number, chat: number): Promise<Staffed> {
  const payload = `j-${randomUUID().replaceAll('-', '').slice(0, 22)}`;
  const id = randomUUID();
  const now = BEGAN;
  rig.store.companies.create({ id, name: `${mark} Pools`, locale: 'en' }, now);
  rig.store.invitations.add(
    { id: randomUUID(), payload, company: id, role: 'administrator', expiresAt: now + DAY },
    now,
  );
  const admin = personAt(rig.fake, adminId);
  const group = personAt(rig.fake, adminId, { chat });
  await did(() => admin.says(`/start ${payload}`));
  await did(() => admin.presses('Yes'));
  await did(() => admin.says(`Ann ${mark}`));
  const bytes = Buffer.from(poolsOf(mark));
  rig.fake.files.set(`table-${mark}`, bytes);
  const document = { file_id: `table-${mark}`, file_unique_id: mark, file_name: 'pools.csv' };
  await did(() => admin.sends({ document: { ...document, mime_type: 'text/csv', file_size: bytes.length } }));
  await did(() => admin.presses('Yes'));
  expect(lastOf(admin).text).toContain('new: 2');
  await did(() => group.says('/staff@padside_test_bot'));
  return { mark, admin, group };
}

/** Somebody comes by a link that the administrator makes. */
async function invited({ admin }: Staffed, role: string, who: Person, pool?: string): Promise<void> {
  const before = admin.messages().length;
  await did(() => admin.says('/invite'));
  await did(() => admin.presses(role));
  if (pool !== undefined) await did(() => admin.presses(pool));
  const payload = payloadOf(admin.messages().slice(before));
  expect(payload).not.toBe('');
  await did(() => who.says(`/start ${payload}`));
}

const LEAST_SAID = [
  'Entendido',
  'Understood',
  'Saltar este paso',
  'Skip this',
  'No puedo hacerlo',
  "I can't do this",
];

/** Says as little as can be said until the case ends. */
async function untilVisit(owner: Person, asked: RegExp): Promise<void> {
  for (let turn = 0; turn < 80; turn += 1) {
    const open = owner.question();
    if (asked.test(open.text)) return;
    const labels = open.keyboard.flat().map(({ text }) => text);
    const label = LEAST_SAID.find((one) => labels.includes(one)) ?? labels[0]!;
    await did(() => owner.presses(label));
  }
  throw new Error('The case did not end');
}

beforeAll(async () => {
  const listener = { hear: () => Promise.resolve({ kind: 'text', text: DICTATED } as const) };
  rig = await startRig({ pace: UNHURRIED, now: () => BEGAN + later + (Date.now() - began), listener });
});

afterAll(async () => {
  const { violations } = rig.fake;
  await rig.close();
  expect(violations).toEqual([]);
});

describe("a company's first line", () => {
  let heron: Staffed;
  let foxglove: Staffed;
  let tess: Person;
  let eva: Person;
  let fay: Person;

  it('should be set up in the chat, by links alone', async () => {
    heron = await company('Heron', 11, -100);
    foxglove = await company('Foxglove', 21, -200);
    tess = personAt(rig.fake, 12);
    eva = personAt(rig.fake, 13, { language: 'es' });
    fay = personAt(rig.fake, 22);
    await invited(heron, 'Technician', tess);
    await did(() => tess.presses('Yes'));
    await did(() => tess.says('Tess Heron'));
    await invited(heron, 'Pool owner', eva, 'Garden Heron (P-1)');
    await did(() => eva.presses('Sí'));
    await invited(foxglove, 'Pool owner', fay, 'Terrace Foxglove (P-2)');
    await did(() => fay.presses('Yes'));
    expect(eva.messages().some(({ text }) => text.includes('Ahora está con Heron Pools'))).toBe(true);
  }, 60_000);

  it('should lead the owner in Spanish to a brief in the staff chat', async () => {
    await did(() => eva.says('el limpiafondos no se mueve'));
    await untilVisit(eva, /¿Quiere que venga Heron Pools\?/);
    await did(() => eva.presses('Sí'));
    await did(() => eva.presses('Por la mañana'));
    await did(() => eva.says('El perro es bueno'));
    await did(() => eva.says('4711#'));
    const brief = heron.group.messages().findLast(({ text }) => text.includes('VISIT at Garden Heron'))!;
    expect(brief.text).toContain('El perro es bueno');
    expect(brief.text).not.toContain('4711');
    expect(foxglove.group.messages().some(({ text }) => text.includes('VISIT'))).toBe(false);
  }, 120_000);

  it('should send a technician, who dictates the closing and hears it read back; the owner is told in plain words', async () => {
    const brief = heron.group.messages().findLast(({ text }) => text.includes('VISIT at Garden Heron'))!;
    await did(() => heron.group.presses('Accept', brief));
    await did(() => heron.group.presses('Assign', brief));
    await did(() => heron.group.presses('Tess Heron'));
    expect(tess.messages().some(({ text }) => text.includes('Garden Heron (P-1) is yours'))).toBe(true);
    const [own] = tess.messages().filter(({ text }) => text.includes('Garden Heron (P-1) is yours'));
    await did(() => tess.presses('Open the brief', own));
    expect(tess.messages().some(({ text }) => text.includes('4711#'))).toBe(true);
    const told = eva.messages().length;
    await did(() => tess.sends({ voice: NOTE }));
    expect(lastOf(tess).text).toMatch(/I heard: a full leaf canister.*25 min.*14 psi/);
    expect(eva.messages()).toHaveLength(told);
    await did(() => tess.presses('Yes'));
    const summary = eva
      .messages()
      .slice(told)
      .map(({ text }) => text)
      .join('\n');
    expect(summary).toMatch(/Heron Pools/);
    expect(summary).toMatch(/recogehojas|hojas/);
  }, 60_000);

  it('should ask two days later in Spanish, though the program was not running then', async () => {
    later = 2 * DAY + 3_600_000;
    await rig.restart();
    await rig.settled();
    expect(lastOf(eva).text).toContain('¿Sigue todo funcionando como debe?');
    const asked = eva.messages().filter(({ text }) => text.includes('¿Sigue todo'));
    expect(asked).toHaveLength(1);
    await did(() => eva.presses('Sigue funcionando', asked[0]));
    expect(lastOf(eva).text).toContain('Me alegro');
    await rig.restart();
    await rig.settled();
    expect(eva.messages().filter(({ text }) => text.includes('¿Sigue todo'))).toHaveLength(1);
  }, 60_000);

  it('should report as a message, a picture and a table', async () => {
    await did(() => fay.says('the cleaner does not move'));
    await untilVisit(fay, /Do you want Foxglove Pools to come\?/);
    await did(() => fay.presses('Yes'));
    const before = heron.admin.messages().length;
    await did(() => heron.admin.says('/report week'));
    await did(() => foxglove.admin.says('/report season'));
    const [report, picture, table] = heron.admin.messages().slice(before);
    expect(report?.text).toContain('Heron Pools: the last 7 days');
    expect(report?.text).toContain('Visits closed: 1');
    expect(report?.text).toContain('Tess Heron: closed 1, 25 min');
    const png = rig.fake.files.get(`sent-${picture?.id ?? 0}`);
    expect(png?.subarray(1, 4).toString()).toBe('PNG');
    const csv = rig.fake.files.get(`sent-${table?.id ?? 0}`)?.toString('utf8') ?? '';
    expect(csv.split('\r\n').find((line) => line.startsWith('technician'))).toContain('Tess Heron');
  }, 120_000);

  it('should never have told anybody of one company anything of the other', () => {
    const { sent } = rig.fake.chats;
    const known = new Set(Object.values(CHATS).flat());
    expect(sent.filter(({ chat }) => !known.has(chat))).toEqual([]);
    for (const mark of MARKS) {
      const own = sent.filter(({ chat }) => CHATS[mark].includes(chat));
      expect(own.length).toBeGreaterThan(10);
      const other = MARKS.find((one) => one !== mark)!;
      for (const { id, html, first, text } of own) {
        const file = rig.fake.files.get(`sent-${id}`)?.toString('utf8') ?? '';
        expect(JSON.stringify([html, first, text, file])).not.toContain(other);
      }
    }
  });
});
