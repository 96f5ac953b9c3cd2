/** A company over the platform: its first link, a table sent as a file, the code to scan, and the chat of its staff. */
import { afterEach, expect, it } from 'vitest';
import type { Person } from '../fake-bot-api/person.ts';
import { personAt } from '../fake-bot-api/person.ts';
import type { Rig } from '../fake-bot-api/rig.ts';
import { startRig } from '../fake-bot-api/rig.ts';
import { payloadIn } from '../driver/crowd.ts';

const UNHURRIED = { burst: 1000, everyMs: 1000 };
const CREW = -500;
let rig: Rig;
afterEach(async () => {
  const { violations } = rig.fake;
  await rig.close();
  expect(violations).toEqual([]);
});

async function then(person: Person, act: () => unknown): Promise<string> {
  const before = person.messages().length;
  act();
  await rig.settled();
  return person
    .messages()
    .slice(before)
    .map(({ text }) => text)
    .join('\n');
}

const document = (id: string, size: number): Record<string, unknown> => ({
  document: {
    file_id: id,
    file_unique_id: id,
    file_name: 'pools.csv',
    mime_type: 'text/csv',
    file_size: size,
  },
});

it('should let an administrator in, take a table, give out a code, and tell the staff who came', async () => {
  rig = await startRig({ pace: UNHURRIED });
  const { fake, store } = rig;
  store.companies.create({ id: 'heron', name: 'Blue Heron Pools', locale: 'en' }, Date.now());
  const payload = 'j-AAAAAAAAAAAAAAAAAAAAAA';
  const expiresAt = Date.now() + 60_000;
  store.invitations.add(
    { id: 'first', payload, company: 'heron', role: 'administrator', expiresAt },
    Date.now(),
  );

  const ann = personAt(fake, 11);
  expect(await then(ann, () => ann.says(`/start ${payload}`))).toContain('Blue Heron Pools');
  await then(ann, () => ann.presses('Yes'));
  await then(ann, () => ann.says('Ann'));

  fake.files.set('table', Buffer.from('reference,name,language\nA-1,Jardín de Ada,es\n'));
  const preview = await then(ann, () => ann.sends(document('table', 60)));
  expect(preview).toMatch(/am reading it[\s\S]*Pools for Blue Heron Pools in this file: 1, of these new 1/);
  expect(await then(ann, () => ann.presses('Yes'))).toMatch(/Taken\. Pools new: 1/);

  const crewAnn = personAt(fake, 11, { chat: CREW });
  expect(await then(crewAnn, () => crewAnn.says('/staff@padside_test_bot'))).toContain('Blue Heron Pools');

  await then(ann, () => ann.says('/invite'));
  await then(ann, () => ann.presses('Pool owner'));
  const made = await then(ann, () => ann.says('Ada'));
  expect(made).toContain('https://t.me/padside_test_bot?start=j-');
  const code = [...fake.files].find(([name]) => name.startsWith('sent-'))?.[1];
  expect(code?.subarray(1, 4).toString()).toBe('PNG');

  const ada = personAt(fake, 22, { language: 'es' });
  expect(await then(ada, () => ada.says(`/start ${payloadIn(made)}`))).toContain('Blue Heron Pools cuida de');
  await then(ada, () => ada.presses('Sí'));
  expect(store.load('telegram:22', 'telegram:22').pools.map(({ name }) => name)).toEqual(['Jardín de Ada']);
  expect(crewAnn.last()?.text).toBe('The owner of Jardín de Ada is here now.');

  const exported = await then(ann, () => ann.says('/export'));
  expect(exported).toContain('Pools in this file: 1');
  const file = [...fake.files].filter(([name]) => name.startsWith('sent-')).at(-1)?.[1];
  expect(file?.toString('utf8')).toContain('A-1,Jardín de Ada');

  // The link's button stands until it is pressed, but a used link has nothing left to withdraw.
  const button = ann.messages().find(({ text }) => text.includes('Link for the owner'));
  expect(button?.keyboard.flat()).toHaveLength(1);
});

it('should fetch no file of a stranger, and say so', async () => {
  rig = await startRig({ pace: UNHURRIED });
  const eve = personAt(rig.fake, 33);
  await then(eve, () => eve.says('hello'));
  expect(await then(eve, () => eve.sends(document('table', 60)))).toContain('cannot take that file');
  expect(rig.fake.calls.get('getFile')).toBeUndefined();
});

it('should say what to do where a file is larger than can be fetched, or does not come', async () => {
  rig = await startRig({ pace: UNHURRIED });
  const { store, fake } = rig;
  const ann = personAt(fake, 44);
  await then(ann, () => ann.says('hello'));
  store.companies.create({ id: 'heron', name: 'Blue Heron Pools', locale: 'en' }, Date.now());
  const payload = 'j-BBBBBBBBBBBBBBBBBBBBBB';
  const expiresAt = Date.now() + 60_000;
  store.invitations.add(
    { id: 'first', payload, company: 'heron', role: 'dispatcher', expiresAt },
    Date.now(),
  );
  await then(ann, () => ann.says(`/start ${payload}`));
  await then(ann, () => ann.presses('Yes'));
  await then(ann, () => ann.says('Ann'));
  expect(await then(ann, () => ann.sends(document('huge', 30_000_000)))).toContain('20 MB');
  expect(await then(ann, () => ann.sends(document('gone', 100)))).toContain('cannot take that file');
  // The fake platform notes a call for a file that it does not have.
  fake.violations.length = 0;
});
