/** Writes docs/samples: what the people of an invented company got in two weeks that are played here, as they got it. */
import { mkdirSync, writeFileSync } from 'node:fs';
import { attachmentsOf } from '../src/app/attachments.ts';
import type { Message } from '../src/dialogues/message.ts';
import type { Crowd } from '../tests/driver/crowd.ts';
import { startCrowd } from '../tests/driver/crowd.ts';

const FOLDER = new URL('../docs/samples/', import.meta.url);
const HOUR_MS = 3_600_000;
const DAY_MS = 24 * HOUR_MS;
const GROUP = 'yard';

const TABLE = [
  'reference,name,address,language,cleaner,connection,canister,pump,filter,clean-filter-pressure,clean-pump-vacuum',
  'M-01,Laurel Court,12 Invented Way,en,suction,skimmer,yes,single-speed,cartridge,13 psi,7 inHg',
  'M-02,Casa Olivo,4 Invented Way,es,suction,port,no,variable-speed,sand,14 psi,6 inHg',
  'M-03,Long Terrace,9 Invented Lane,en,pressure-booster,,,single-speed,de,12 psi,',
  'M-04,Old Mill,30 Invented Lane,en,robotic,,,variable-speed,cartridge,11 psi,',
].join('\n');

/** An owner, what they say is wrong, what they find, and the repair that cures it, if one does. */
interface Story {
  owner: string;
  pool: string;
  complaint: string;
  finds: Readonly<Record<string, string>>;
  cures?: string;
}

const STORIES: readonly Story[] = [
  {
    owner: 'olive',
    pool: 'Laurel Court',
    complaint: 'moves-slowly',
    finds: { 'canister-look': 'full', 'hose-look': 'normal' },
    cures: 'canister-full',
  },
  {
    owner: 'carmen',
    pool: 'Casa Olivo',
    complaint: 'air-in-pump',
    finds: { 'pump-lid-look': 'bubbles', 'return-flow': 'weak', 'water-level': 'normal' },
  },
  { owner: 'lars', pool: 'Long Terrace', complaint: 'not-moving', finds: { 'booster-running': 'quiet' } },
  { owner: 'mia', pool: 'Old Mill', complaint: 'robot-dead', finds: { 'robot-lights': 'off' } },
];

const LEAST = ['understood', 'unsure', 'cannot', 'skip'];

/** What the owner of the story answers to a question. */
function answerTo({ id, kind, options = [] }: Message, { finds, cures }: Story): string {
  const ids = options.map((option) => option.id);
  const found = finds[id];
  if (found !== undefined && ids.includes(found)) return found;
  if (kind === 'repair' && id === cures) return 'worked';
  return LEAST.find((one) => ids.includes(one)) ?? ids[0] ?? 'skip';
}

/** Plays the case of a story to its end; returns what the owner got last. */
function played(story: Story, crowd: Crowd): Message[] {
  const { owner, complaint } = story;
  let heard = crowd.choose(owner, complaint);
  for (let turn = 0; turn < 80; turn += 1) {
    const open = heard.at(-1);
    if (open === undefined || open.id === 'visit-wanted' || heard.some(({ outcome }) => outcome === 'fixed'))
      return heard;
    heard = crowd.choose(owner, answerTo(open, story));
  }
  throw new Error(`The case of ${owner} does not end`);
}

/** The visit that was asked for last. */
function lastVisit({ database }: Crowd): string {
  const sql = 'SELECT id FROM visit ORDER BY rowid DESC LIMIT 1';
  return database.prepare<[], { id: string }>(sql).get()?.id ?? '';
}

function asksForVisit(story: Story, gate: string, crowd: Crowd): string {
  if (!played(story, crowd).some(({ id }) => id === 'visit-wanted'))
    throw new Error(`No visit is offered to ${story.owner}`);
  crowd.choose(story.owner, 'yes');
  crowd.choose(story.owner, 'mornings');
  crowd.say(story.owner, gate);
  crowd.choose(story.owner, 'skip');
  return lastVisit(crowd);
}

function assigned(visit: string, technician: string, day: string, crowd: Crowd): void {
  crowd.wait(20 * 60_000);
  crowd.choose('dora', `accept-visit/${visit}`, GROUP);
  crowd.choose('dora', `assign-visit/${visit}`, GROUP);
  crowd.choose('dora', `test:${technician}`, GROUP);
  crowd.choose('dora', `schedule-visit/${visit}`, GROUP);
  crowd.choose('dora', day, GROUP);
}

function company(crowd: Crowd): void {
  const id = crowd.company('Marisol Pool Service', 'dora');
  crowd.sendFile('dora', TABLE);
  crowd.choose('dora', 'yes');
  crowd.say('dora', '/staff', GROUP);
  crowd.store.companies.set(id, { key: 'phone', value: '555 0100' });
  crowd.store.companies.set(id, { key: 'hours', value: 'Mon to Fri 8 to 17' });
  for (const technician of ['tess', 'tom']) {
    crowd.join(technician, id, 'technician');
    crowd.database
      .prepare('UPDATE membership SET name = ? WHERE person = ?')
      .run(technician === 'tess' ? 'Tess' : 'Tom', `test:${technician}`);
  }
  for (const { owner, pool } of STORIES) crowd.join(owner, id, 'owner', crowd.poolCalled(pool));
}

function textOf(messages: readonly Message[]): string {
  return `${messages.map(({ text }) => text).join('\n\n')}\n`;
}

/** What a conversation got since, of these kinds. */
function got(crowd: Crowd, who: string, since: number): Message[] {
  return crowd.got
    .slice(since)
    .flatMap(({ conversation, message }) => (conversation === `test:${who}` ? [message] : []));
}

function write(name: string, content: string | Uint8Array): void {
  writeFileSync(new URL(name, FOLDER), content);
}

async function reported(crowd: Crowd): Promise<void> {
  const report = crowd.say('dora', '/report month');
  const attachments = attachmentsOf(crowd.store);
  write('report.txt', textOf(report.filter(({ id, kind }) => id === 'report' && kind === 'info')));
  for (const { picture, file } of report) {
    if (picture !== undefined) write('report.png', await attachments.picture(picture));
    if (file !== undefined) write('report.csv', await attachments.file(file));
  }
}

async function samples(): Promise<void> {
  mkdirSync(FOLDER, { recursive: true });
  const crowd = startCrowd('en');
  company(crowd);
  const [cured, leak, booster, robot] = STORIES;
  if (cured === undefined || leak === undefined || booster === undefined || robot === undefined) return;
  played(cured, crowd);
  crowd.choose(cured.owner, 'no');
  const sinceLeak = crowd.got.length;
  const first = asksForVisit(leak, 'The dog is friendly; ring twice.', crowd);
  write('brief.txt', textOf(got(crowd, GROUP, sinceLeak).slice(0, 1)));
  assigned(first, 'tess', '2030-06-02', crowd);
  assigned(asksForVisit(booster, 'Side gate is open.', crowd), 'tess', '2030-06-02', crowd);
  assigned(asksForVisit(robot, 'Nobody at home before noon.', crowd), 'tom', '2030-06-02', crowd);
  crowd.wait(DAY_MS - 2 * HOUR_MS);
  write('truck.txt', textOf(crowd.say('tess', '/truck')));
  crowd.choose('tess', `close-visit/${first}`);
  const sinceClosing = crowd.got.length;
  crowd.say('tess', 'closed: lid O-ring, new ring, 25 minutes, filter 14 psi, vacuum 6, clean');
  write('closing-summary.txt', textOf(got(crowd, leak.owner, sinceClosing)));
  crowd.say('tess', 'closed: booster pump switched off, repaired, no parts, 15 minutes');
  crowd.say('tom', 'closed: robot power unit, new unit, 30 minutes');
  crowd.wait(9 * DAY_MS);
  played(cured, crowd);
  crowd.choose(cured.owner, 'no');
  await reported(crowd);
  crowd.close();
}

await samples();
