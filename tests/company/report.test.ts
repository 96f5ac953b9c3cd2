/** Reports: figures against a set counted by hand, nothing of another company, and the three forms of it. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { attachmentsOf } from '../../src/app/attachments.ts';
import { figuresOf } from '../../src/dialogues/company/report/count.ts';
import type { ReportRows } from '../../src/dialogues/company/report/rows.ts';
import { NO_ROWS } from '../../src/dialogues/company/report/rows.ts';
import { drawn } from '../../src/media/pictures/draw.ts';
import { widthOf, wrapped } from '../../src/media/pictures/svg.ts';
import { openDatabase } from '../../src/store/database.ts';
import { storeOn } from '../../src/store/store.ts';
import { reportReader } from '../../src/store/company/report.ts';
import { startCrowd } from '../driver/crowd.ts';

const DAY = 24 * 3_600_000;
const MINUTE = 60_000;
const NOW = Date.UTC(2030, 5, 30);
const PERIOD = { from: NOW - 7 * DAY, to: NOW };
const ago = (days: number): number => NOW - days * DAY;

const TESS = { person: 'tess', name: 'Tess' };
const TOM = { person: 'tom', name: 'Tom' };

/** Counted by hand below. */
const ROWS: ReportRows = {
  cases: [
    { id: 'c1', outcome: 'fixed', visited: false, cleaner: 'suction', filter: 'sand' },
    { id: 'c2', outcome: 'fixed', visited: true, cleaner: 'suction' },
    { id: 'c3', outcome: 'visit', visited: true, cleaner: 'robotic' },
    { id: 'c4', outcome: 'stopped', visited: false },
    { id: 'c5', visited: false, cleaner: 'suction', filter: 'de' },
  ],
  visits: [
    { id: 'v1', isCancelled: false, why: 'filter-dirty', openedAt: ago(3), acceptedAt: ago(3) + 10 * MINUTE },
    { id: 'v2', isCancelled: false, why: 'filter-dirty', openedAt: ago(2), acceptedAt: ago(2) + 50 * MINUTE },
    { id: 'v3', isCancelled: false, openedAt: ago(1) },
    { id: 'v4', isCancelled: true, why: 'motor-worn', openedAt: ago(1), acceptedAt: ago(1) + MINUTE },
  ],
  closings: [
    {
      visit: 'v1',
      cause: 'filter-dirty',
      firstSuspect: 'filter-dirty',
      minutes: 20,
      technician: TESS,
      at: ago(2),
    },
    {
      visit: 'v2',
      cause: 'lid-oring-worn',
      firstSuspect: 'filter-dirty',
      minutes: 40,
      technician: TESS,
      at: ago(1),
    },
    { visit: 'v0', cause: 'something-else', minutes: 30, technician: TOM, at: ago(1) },
  ],
  causes: [
    // Thirty days before it is confirmed again: within a month.
    { pool: 'p1', fault: 'filter-dirty', at: ago(32), by: 'owner' },
    { pool: 'p1', fault: 'filter-dirty', at: ago(2), by: 'visit', technician: 'tess' },
    // The same fault at another pool, another fault at the same pool, and one more than a month before are none.
    { pool: 'p2', fault: 'lid-oring-worn', at: ago(38), by: 'owner' },
    { pool: 'p2', fault: 'lid-oring-worn', at: ago(1), by: 'visit', technician: 'tess' },
    { pool: 'p3', fault: 'canister-full', at: ago(5), by: 'owner' },
  ],
};

describe('the figures of a report', () => {
  const figures = figuresOf(ROWS, PERIOD);

  it('should be those that were counted by hand', () => {
    expect(figures).toMatchObject({
      cases: 5,
      cured: 1,
      visits: 3,
      cancelled: 1,
      closed: 3,
      judged: 2,
      right: 1,
      answered: 2,
      answerMinutes: 30,
      repeats: 1,
    });
    expect(figures.why).toEqual([
      ['filter-dirty', 2],
      [undefined, 1],
    ]);
    expect(figures.causes.toSorted()).toEqual([
      ['canister-full', 1],
      ['filter-dirty', 1],
      ['lid-oring-worn', 1],
      ['something-else', 1],
    ]);
  });

  it('should be counted by technician', () => {
    expect(figures.technicians).toEqual([
      { name: 'Tess', closed: 2, minutes: 30, judged: 2, right: 1, repeats: 1 },
      { name: 'Tom', closed: 1, minutes: 30, judged: 0, right: 0, repeats: 0 },
    ]);
  });

  it('should be counted by class of equipment', () => {
    const rows = figures.classes.map(({ key, value, cases, cured }) => [key, value, cases, cured]);
    expect(rows).toEqual([
      ['cleaner', 'suction', 3, 1],
      ['cleaner', 'robotic', 1, 0],
      ['cleaner', undefined, 1, 0],
      ['filter', undefined, 3, 0],
      ['filter', 'sand', 1, 1],
      ['filter', 'de', 1, 0],
    ]);
  });

  it('should be nothing of nothing', () => {
    expect(figuresOf(NO_ROWS, PERIOD)).toMatchObject({ cases: 0, causes: [], technicians: [], classes: [] });
    expect(figuresOf(NO_ROWS, PERIOD).answerMinutes).toBeUndefined();
  });
});

describe('what a report is counted from', () => {
  const anyCase = fc.record({
    company: fc.constantFrom('one', 'two', 'none'),
    openedDaysAgo: fc.integer({ min: -1, max: 60 }),
    sinceDaysAgo: fc.integer({ min: 0, max: 80 }),
    outcome: fc.constantFrom('fixed', 'visit', 'stopped', null),
    closing: fc.boolean(),
    cancelled: fc.boolean(),
  });

  it("should be of one company alone, and of its pools' time with it", () => {
    fc.assert(
      fc.property(fc.array(anyCase, { maxLength: 12 }), (cases) => {
        const database = openDatabase(':memory:');
        const store = storeOn(database);
        const run = (sql: string, ...values: (string | number | null)[]): void =>
          void database.prepare(sql).run(...values);
        for (const id of ['one', 'two']) store.companies.create({ id, name: id, locale: 'en' }, 0);
        for (const [
          index,
          { company, openedDaysAgo, sinceDaysAgo, outcome, closing, cancelled },
        ] of cases.entries()) {
          const [pool, consult, visit] = [
            `pool ${company} ${index}`,
            `case ${company} ${index}`,
            `visit ${company} ${index}`,
          ];
          const at = ago(openedDaysAgo);
          run('INSERT INTO pool (id, name, created_at) VALUES (?, ?, 0)', pool, pool);
          run(
            'INSERT INTO consult (id, pool, complaint, role, opened_at, closed_at, outcome, fault) VALUES (?, ?, ?, ?, ?, ?, ?, ?)',
            ...[consult, pool, 'not-moving', 'owner', at, at, outcome, 'filter-dirty'],
          );
          if (company === 'none') continue;
          run(
            'INSERT INTO company_pool (pool, company, reference, since, touched_at) VALUES (?, ?, ?, ?, 0)',
            ...[pool, company, pool, ago(sinceDaysAgo)],
          );
          if (outcome !== 'visit') continue;
          run(
            'INSERT INTO visit (id, company, pool, consult, state, opened_at) VALUES (?, ?, ?, ?, ?, ?)',
            ...[visit, company, pool, consult, cancelled ? 'cancelled' : 'closed', at],
          );
          if (closing) run("INSERT INTO closing (visit, cause, at) VALUES (?, 'filter-dirty', ?)", visit, at);
        }
        const rows = reportReader(database)('one', PERIOD);
        const told = JSON.stringify(rows);
        store.close();
        expect(told).not.toMatch(/(pool|case|visit) (two|none)/);
        const expected = cases.filter(
          ({ company, openedDaysAgo: opened, sinceDaysAgo: since }) =>
            company === 'one' && opened >= 1 && opened <= 7 && opened <= since,
        );
        expect(rows.cases).toHaveLength(expected.length);
      }),
      { numRuns: 60 },
    );
  });
});

describe('the command', () => {
  it('should ask for a time, and say truly where nothing happened', () => {
    const crowd = startCrowd('en');
    crowd.company('Blue Heron Pools', 'ann');
    const [ask] = crowd.say('ann', '/report');
    expect(ask?.options?.map(({ id }) => id)).toEqual(['week', 'month', 'season']);
    expect(crowd.choose('ann', 'season')[0]?.text).toContain('Nothing happened in this time.');
    expect(crowd.say('ann', '/informe semana')[0]?.text).toContain('2030-05-26 to 2030-06-01');
    expect(crowd.say('bob', '/report week')[0]?.id).not.toBe('report');
    crowd.close();
  });

  it('should write no cell that a spreadsheet takes for a formula', async () => {
    const attachments = attachmentsOf(storeOn(openDatabase(':memory:')));
    const lines = [['technician', '=HYPERLINK("x")', 1, '@sum', '-3', '+1']];
    const written = Buffer.from(
      await attachments.file({ holds: 'table', name: 'report.csv', lines }),
    ).toString('utf8');
    expect(written).toBe(`\uFEFFtechnician,"'=HYPERLINK(""x"")",1,'@sum,'-3,'+1\r\n`);
  });
});

describe('the picture', () => {
  it('should be drawn whatever the names hold', () => {
    const bars = [
      { label: 'a & b <c> "d" \u0000 '.repeat(20), value: 0 },
      { label: '', value: 3, note: 'x'.repeat(60) },
    ];
    const png = drawn({
      draw: 'figures',
      title: 'W'.repeat(200),
      subtitle: '',
      numbers: [{ label: 'l', value: '9'.repeat(80) }],
      charts: [{ title: 't', bars }],
    });
    expect(png.subarray(1, 4).toString()).toBe('PNG');
    expect(png.readUInt32BE(16)).toBe(1080);
  });

  it('should keep every line within its width', () => {
    fc.assert(
      fc.property(fc.string({ maxLength: 80 }), fc.integer({ min: 60, max: 900 }), (text, width) => {
        for (const line of wrapped(text, 30, width)) expect(widthOf(line, 30)).toBeLessThanOrEqual(width);
      }),
    );
  });
});
