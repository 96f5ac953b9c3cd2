/** What comes of its own accord after a case: on time, once, by day, and not where it was switched off. */
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { runDue } from '../../src/app/schedule.ts';
import type { Message } from '../../src/dialogues/message.ts';
import type { PlanJob } from '../../src/dialogues/company/job.ts';
import { localTime } from '../../src/dialogues/local-time.ts';
import type { Crowd } from '../driver/crowd.ts';
import { startCrowd } from '../driver/crowd.ts';

const HOUR = 3_600_000;
const DAY = 24 * HOUR;
const POOLS = [
  'reference,name,cleaner,connection,canister,pump,filter',
  'P-1,Laurel,suction,skimmer,yes,single-speed,cartridge',
].join('\n');

let crowd: Crowd;
let company: string;

/** Messages of this kind that a conversation got since. */
function got(id: string, conversation = 'test:olga'): Message[] {
  return crowd.got.flatMap((one) =>
    one.conversation === conversation && one.message.id === id ? [one.message] : [],
  );
}

/** When messages of this kind were written, milliseconds. */
function writtenAt(id: string): number[] {
  const sql = "SELECT written_at AS at FROM outbox WHERE json_extract(message, '$.id') = ? ORDER BY id";
  return crowd.database
    .prepare<[string], { at: number }>(sql)
    .all(id)
    .map(({ at }) => at);
}

/** Plays a case through until the owner says that it runs again, whatever is asked on the way. */
function cure(person = 'olga'): void {
  let said = crowd.say(person, 'the cleaner is hardly moving');
  for (let turn = 0; turn < 80; turn += 1) {
    const open = said.at(-1);
    if (open?.id === 'complaint' || said.some(({ outcome }) => outcome === 'fixed')) break;
    const ids = (open?.options ?? []).map(({ id }) => id);
    const full = open?.id === 'canister-look' ? 'full' : undefined;
    const repair = open?.id === 'canister-full' ? 'worked' : 'cannot';
    const ways = [full, repair, 'understood', 'skip', 'unsure', 'no'];
    const wanted = ways.find((id) => id && ids.includes(id));
    said = crowd.choose(person, wanted ?? ids[0] ?? 'skip');
  }
  crowd.choose(person, 'no');
}

function zone(name: string): void {
  crowd.say('admin', '/company');
  crowd.choose('admin', 'time-zone');
  crowd.say('admin', name);
  crowd.choose('admin', 'done');
}

beforeEach(() => {
  crowd = startCrowd('en');
  company = crowd.company('Blue Heron Pools', 'admin');
  crowd.sendFile('admin', POOLS);
  crowd.choose('admin', 'yes');
  crowd.say('admin', '/staff', 'group');
  zone('Europe/Madrid');
  crowd.join('olga', company, 'owner', crowd.poolCalled('Laurel'));
});

afterEach(() => {
  crowd.close();
});

describe('two days after a cure', () => {
  beforeEach(() => {
    cure();
    expect(got('fixed')).toHaveLength(1);
  });

  it('should ask the owner whether it still runs, once', () => {
    crowd.wait(47 * HOUR);
    expect(got('still-running')).toEqual([]);
    crowd.wait(2 * HOUR);
    expect(got('still-running')).toHaveLength(1);
    crowd.wait(10 * DAY);
    expect(got('still-running')).toHaveLength(1);
    expect(got('still-running')[0]?.text).toContain('Laurel');
  });

  it('should ask when the program was not running at the time', () => {
    crowd.waitWithoutRunning(3 * DAY + 2 * HOUR);
    expect(got('still-running')).toEqual([]);
    crowd.wait(1);
    expect(got('still-running')).toHaveLength(1);
  });

  it('should ask once where two loops look at the same moment', () => {
    crowd.waitWithoutRunning(2 * DAY + HOUR);
    const parts = { store: crowd.store, now: () => crowd.now() };
    const due = crowd.store.jobs.due(crowd.now(), 5);
    const first = due.find(({ kind }) => kind === 'still-running');
    expect(runDue(parts)).toEqual(['test:olga']);
    expect(runDue(parts)).toEqual([]);
    expect(crowd.store.jobs.done(first?.id ?? 0, crowd.now())).toBe(false);
    crowd.wait(1);
    expect(got('still-running')).toHaveLength(1);
  });

  it('should send nothing where the program dies between the job and its messages', () => {
    crowd.waitWithoutRunning(2 * DAY + HOUR);
    const { store } = crowd;
    const now = (): number => crowd.now();
    const dying = { ...store.jobs, write: () => expect.fail('the process dies here') };
    runDue({ store: { ...store, jobs: dying }, now });
    expect(writtenAt('still-running')).toEqual([]);
    crowd.wait(2 * HOUR);
    expect(got('still-running')).toHaveLength(1);
  });

  it('should take a yes, and leave what was open as it was', () => {
    crowd.wait(2 * DAY + HOUR);
    const [yes, , off] = got('still-running')[0]?.options ?? [];
    expect([yes?.label, off?.label]).toEqual(['Still running', 'No more such questions']);
    crowd.choose('olga', yes?.id ?? '');
    expect(got('runs-well')).toHaveLength(1);
  });

  it('should open a new case with what is known of the pool where it does not run, and only one', () => {
    crowd.wait(2 * DAY + HOUR);
    const [, no] = got('still-running')[0]?.options ?? [];
    crowd.choose('olga', no?.id ?? '');
    crowd.choose('olga', no?.id ?? '');
    const cases = crowd.store.load('test:olga', 'test:olga').pools[0]?.cases ?? [];
    expect(cases.map(({ complaint, outcome }) => [complaint, outcome])).toEqual([
      ['moves-slowly', 'fixed'],
      ['moves-slowly', undefined],
    ]);
    expect(cases[0]?.confirmed?.fault).toBe('canister-full');
  });

  it('should not ask about a pool that has had another case meanwhile', () => {
    crowd.wait(DAY);
    crowd.say('olga', 'the pump is dead');
    crowd.wait(3 * DAY);
    expect(got('still-running')).toEqual([]);
  });

  it('should not write to somebody who blocked the bot, nor later', () => {
    crowd.store.unreachable('test:olga', true, crowd.now());
    crowd.wait(5 * DAY);
    expect(writtenAt('still-running')).toEqual([]);
    crowd.say('olga', '/help');
    crowd.wait(5 * DAY);
    expect(writtenAt('still-running')).toEqual([]);
  });

  it('should leave somebody alone who has left the company', () => {
    crowd.say('olga', '/leave');
    crowd.choose('olga', 'yes');
    crowd.wait(5 * DAY);
    expect(got('still-running')).toEqual([]);
  });

  it('should leave nothing of it when the owner is erased', () => {
    crowd.say('olga', '/erase');
    crowd.choose('olga', 'yes');
    crowd.wait(5 * DAY);
    expect(writtenAt('still-running')).toEqual([]);
  });

  it('should stop at the button beneath it, for this pool', () => {
    crowd.wait(2 * DAY + HOUR);
    const off = got('still-running')[0]?.options?.at(-1);
    crowd.choose('olga', off?.id ?? '');
    expect(got('reminder-off')).toHaveLength(1);
    cure();
    crowd.wait(5 * DAY);
    expect(got('fixed')).toHaveLength(2);
    expect(got('still-running')).toHaveLength(1);
  });

  it('should not be switched off by somebody else', () => {
    crowd.wait(2 * DAY + HOUR);
    const off = got('still-running')[0]?.options?.at(-1);
    crowd.choose('admin', off?.id ?? '');
    expect(crowd.store.jobs.isOff('test:olga', 'still-running', crowd.poolCalled('Laurel'))).toBe(false);
  });
});

describe('the night of the one who is written to', () => {
  /** Cures at an hour of UTC on a day, and returns when it was asked about, in the person's own time. */
  function askedAt(cured: string, timeZone: string, own?: string): { day: number; hour: number } {
    zone(timeZone);
    if (own !== undefined) crowd.say('olga', `/zone ${own}`);
    crowd.waitWithoutRunning(Date.parse(cured) - crowd.now());
    cure();
    crowd.wait(4 * DAY);
    const [at = 0] = writtenAt('still-running');
    const { day, hour } = localTime(at, own ?? timeZone);
    return { day, hour };
  }

  it.each([
    ['2030-07-10T10:30:00Z', 'Europe/Madrid', { day: 12, hour: 12 }],
    ['2030-07-10T20:30:00Z', 'Europe/Madrid', { day: 13, hour: 8 }],
    ['2030-07-10T05:30:00Z', 'America/Phoenix', { day: 12, hour: 8 }],
    ['2030-07-10T03:30:00Z', 'Asia/Kolkata', { day: 12, hour: 9 }],
    // The clocks go back in between: it is asked at the morning of the new time.
    ['2030-10-25T20:30:00Z', 'Europe/Madrid', { day: 28, hour: 8 }],
    ['2031-03-28T22:30:00Z', 'Europe/Madrid', { day: 31, hour: 8 }],
  ])('should be kept for a cure at %s in %s', (cured, timeZone, asked) => {
    expect(askedAt(cured, timeZone)).toEqual(asked);
  });

  it("should be the person's own where they said one", () => {
    expect(askedAt('2030-07-10T18:30:00Z', 'America/Phoenix', 'Asia/Tokyo')).toEqual({ day: 13, hour: 8 });
  });

  it('should be asked for and answered in plain words', () => {
    expect(crowd.say('olga', '/zone').at(-1)?.text).toContain('time zone');
    expect(crowd.say('olga', 'my garden')[0]?.text).toContain('no time zone');
    expect(crowd.say('olga', 'Bogotá')[0]?.text).toContain('America/Bogota');
  });
});

describe("a filter's next clean", () => {
  /** Filter pressures, psi, a week apart: the first just after a clean. */
  function readings(...psi: number[]): void {
    const pool = crowd.poolCalled('Laurel');
    const note = crowd.database.prepare(
      "INSERT INTO reading (pool, quantity, value, said, clean, at) VALUES (?, 'filter-pressure', ?, 'x', ?, ?)",
    );
    const last = psi.length - 1;
    for (const [index, value] of psi.slice(0, -1).entries())
      note.run(pool, value * 6894.76, index === 0 ? 1 : 0, crowd.now() - (last - index) * 7 * DAY);
    crowd.say('olga', `filter ${psi[last]} psi`);
  }

  it('should be announced before its day, with its range, the caution and a switch', () => {
    readings(12, 12.5, 13, 13.5);
    crowd.wait(15 * DAY);
    expect(got('filter-clean')).toEqual([]);
    crowd.wait(5 * DAY);
    const [message] = got('filter-clean');
    expect(message?.text).toMatch(/Laurel.*about Jun 22, 2030 \(between .*\)/);
    expect(message?.text).toContain('air relief');
    expect(message?.options?.map(({ label }) => label)).toEqual(['No more filter dates']);
    crowd.wait(30 * DAY);
    expect(got('filter-clean')).toHaveLength(1);
  });

  it('should move with the readings that come later', () => {
    readings(12, 12.5, 13, 13.5);
    crowd.wait(10 * DAY);
    crowd.say('olga', 'filter 13 psi');
    crowd.wait(2 * DAY);
    crowd.say('olga', 'filter 13 psi');
    crowd.wait(8 * DAY);
    expect(got('filter-clean')).toEqual([]);
    crowd.wait(60 * DAY);
    expect(got('filter-clean')).toHaveLength(1);
  });

  it('should not be announced once the filter was cleaned', () => {
    readings(12, 12.5, 13, 13.5);
    crowd.wait(10 * DAY);
    const clean =
      "INSERT INTO reading (pool, quantity, value, said, clean, at) VALUES (?, 'filter-pressure', 82000, 'x', 1, ?)";
    crowd.database.prepare(clean).run(crowd.poolCalled('Laurel'), crowd.now());
    crowd.wait(60 * DAY);
    expect(got('filter-clean')).toEqual([]);
  });

  it('should not be announced where it was switched off', () => {
    crowd.store.jobs.plan({
      do: 'plan-job',
      kind: 'filter-clean',
      about: crowd.poolCalled('Laurel'),
      company,
      dueAt: crowd.now(),
    } satisfies PlanJob);
    crowd.database
      .prepare("INSERT INTO reminder_off (person, kind, pool, at) VALUES ('test:olga', 'filter-clean', ?, 0)")
      .run(crowd.poolCalled('Laurel'));
    readings(12, 12.5, 13, 13.5);
    crowd.wait(60 * DAY);
    expect(got('filter-clean')).toEqual([]);
  });
});

describe('a fault that is back within a month', () => {
  it('should be told to the owner and to the staff, with what may lie behind it', () => {
    cure();
    crowd.wait(10 * DAY);
    expect(got('back-again')).toEqual([]);
    cure();
    crowd.wait(HOUR);
    expect(got('back-again')[0]?.text).toContain('cut back what hangs over the water');
    const [told, ...more] = got('same-fault', 'test:group');
    expect(told?.text).toMatch(/Laurel.*full leaf canister.*back within a month/s);
    expect(more).toEqual([]);
  });

  it('should stand in the brief of the case in which it is suspected again', () => {
    cure();
    crowd.wait(10 * DAY);
    let said = crowd.say('olga', 'the cleaner is hardly moving');
    for (let turn = 0; turn < 80 && !said.some(({ kind }) => kind === 'brief'); turn += 1) {
      const open = said.at(-1);
      const ids = (open?.options ?? []).map(({ id }) => id);
      const full = open?.id === 'canister-look' ? 'full' : undefined;
      const wanted = [full, 'cannot', 'understood', 'skip'].find((id) => id && ids.includes(id));
      said = crowd.choose('olga', wanted ?? ids[0] ?? 'skip');
    }
    const brief = said.find(({ kind }) => kind === 'brief');
    expect(brief?.text).toMatch(/BACK WITHIN A MONTH: a full leaf canister/);
    expect(brief?.text).toContain('Likely behind it');
  });

  it('should be an old one after more than a month', () => {
    cure();
    crowd.wait(32 * DAY);
    cure();
    crowd.wait(HOUR);
    expect(got('back-again')).toEqual([]);
    expect(got('same-fault', 'test:group')).toEqual([]);
  });
});
