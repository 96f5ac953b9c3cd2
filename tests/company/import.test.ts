/** Pools in bulk: what is taken, what is refused and how it is told, and what comes out again. */
import fc from 'fast-check';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { PA_PER_PSI } from '../../src/calc/units.ts';
import type { ImportPlan } from '../../src/dialogues/company/company.ts';
import { PROBLEM_CODES } from '../../src/dialogues/company/company.ts';
import { guarded, unguarded } from '../../src/store/cells.ts';
import { readPoolTable } from '../../src/store/pool-table/read.ts';
import type { Crowd } from '../driver/crowd.ts';
import { startCrowd } from '../driver/crowd.ts';
import { allRows } from '../store/fixtures.ts';

const TABLE = [
  'reference,name,address,language,cleaner,connection,canister,pump,filter,multiport,volume,filter-area,rated-power,clean-filter-pressure,clean-pump-vacuum',
  'A-1,Garden of Ada,"12 Invented Way, Lot 3",es,suction,skimmer,yes,single-speed,sand,yes,"15,000 gal",3 ft2,1 hp,13 psi,7 inHg',
  'A-2,Garden of Bo,,,robotic,,,,,,,,,,',
  '',
].join('\r\n');

let crowd: Crowd;
let company: string;
beforeEach(() => {
  crowd = startCrowd('en');
  company = crowd.company('Blue Heron Pools', 'ann');
});
afterEach(() => crowd.close());

const take = (content: string | Uint8Array): ImportPlan => {
  const bytes = typeof content === 'string' ? Buffer.from(content) : content;
  return crowd.store.together(() =>
    crowd.store.pools.take(company, bytes, `pool-${crowd.now()}`, crowd.now()),
  );
};
const recorded = (): unknown => {
  const { pool, company_pool, equipment, reading } = allRows(crowd.database);
  return { pool, company_pool, equipment, reading };
};

describe('a file sent to the bot', () => {
  it('should be shown first, taken on yes, and change nothing the second time', () => {
    const [preview] = crowd.sendFile('ann', TABLE);
    expect(preview?.text).toMatch(/: 2, of these new 2, changed 0, as before 0/);
    expect(crowd.poolCalled('Garden of Ada')).toBe('');
    expect(crowd.choose('ann', 'yes')[0]?.text).toMatch(/new: 2/);
    const before = recorded();
    expect(crowd.sendFile('ann', TABLE)[0]?.id).toBe('import-same');
    expect(take(TABLE).same).toBe(2);
    expect(recorded()).toEqual(before);
  });

  it('should leave everything as it is on no, and be kept no longer', () => {
    crowd.sendFile('ann', TABLE);
    crowd.choose('ann', 'no');
    expect(crowd.poolCalled('Garden of Ada')).toBe('');
    expect(allRows(crowd.database).upload).toEqual([]);
  });

  it('should record what it says, in SI', () => {
    take(TABLE);
    crowd.join('ada', company, 'owner', crowd.poolCalled('Garden of Ada'));
    const [pool] = crowd.store.load('test:ada', 'test:ada').pools;
    expect(pool?.equipment).toMatchObject({ cleaner: 'suction', filter: 'sand', multiport: 'yes' });
    // 1 US gallon is 3.785411784 L (NIST Handbook 44, appendix C).
    expect(pool?.figures.volume).toBeCloseTo(15_000 * 3.785411784e-3, 4);
    expect(pool?.readings.map(({ quantity, clean }) => [quantity, clean])).toEqual([
      ['filter-pressure', true],
      ['pump-vacuum', true],
    ]);
    expect(pool?.readings[0]?.value).toBeCloseTo(13 * PA_PER_PSI, 6);
  });

  it('should change what a line says anew, and keep what a person corrected since', () => {
    take(TABLE);
    const pool = crowd.poolCalled('Garden of Bo');
    crowd.join('bo', company, 'owner', pool);
    crowd.say('bo', '/pool');
    crowd.choose('bo', 'cleaner');
    crowd.choose('bo', 'suction');
    expect(take(TABLE).changed).toBe(0);
    const plan = take(TABLE.replace('A-2,Garden of Bo,', 'A-2,Bo by the gate,4 Invented Way'));
    expect(plan).toMatchObject({ fresh: 0, changed: 1, same: 1 });
    const [own] = crowd.store.load('test:bo', 'test:bo').pools;
    expect(own).toMatchObject({ name: 'Bo by the gate', equipment: { cleaner: 'suction' } });
  });

  it('should not touch the pools of another company with the same references', () => {
    take(TABLE);
    const other = crowd.company('Red Fox Pools', 'rex');
    const before = recorded();
    crowd.store.together(() =>
      crowd.store.pools.take(other, Buffer.from('reference,name\nA-1,Fox den\n'), 'fox', crowd.now()),
    );
    const after = recorded() as Record<string, unknown[]>;
    for (const [table, rows] of Object.entries(before as Record<string, unknown[]>))
      expect(after[table]).toEqual(expect.arrayContaining(rows));
  });

  it('should be read with semicolons, tabs and the mark that spreadsheets put before UTF-8', () => {
    for (const sign of [';', '\t']) {
      const table = `\uFEFFReference${sign}Name${sign}Volume\n A-9 ${sign}"Casa ""Ñandú""${sign} sur"${sign}60 m3\n`;
      const { rows, problems } = readPoolTable(Buffer.from(table));
      expect(problems).toEqual([]);
      expect(rows[0]?.cells).toEqual({ reference: 'A-9', name: `Casa "Ñandú"${sign} sur`, volume: '60 m3' });
    }
  });
});

describe('a file with problems', () => {
  const BAD: [code: string, line: number, content: string | Uint8Array][] = [
    ['not-csv', 2, 'reference,name\nA-1,"open\n'],
    ['not-utf8', 1, Buffer.from('reference,name\nA-1,Jard\xEDn\n', 'latin1')],
    ['not-utf8', 1, Buffer.from([0x50, 0x4b, 0x03, 0x04, 0, 0, 0])],
    ['no-lines', 1, ''],
    ['no-lines', 1, 'reference,name\n'],
    ['too-many', 200_002, `reference,name\n${'A,B\n'.repeat(200_001)}`],
    ['column-missing', 1, 'reference,cleaner\nA-1,suction\n'],
    ['column-unknown', 1, 'reference,name,colour\nA-1,Ada,blue\n'],
    ['column-twice', 1, 'reference,name,name\nA-1,Ada,Ada\n'],
    ['cells', 3, 'reference,name\nA-1,Ada\nA-2,Bo,one more\n'],
    ['empty', 3, 'reference,name\nA-1,Ada\n,Bo\n'],
    ['too-long', 2, `reference,name\nA-1,${'x'.repeat(61)}\n`],
    ['twice', 3, 'reference,name\nA-1,Ada\nA-1,Bo\n'],
    ['not-one-of', 2, 'reference,name,cleaner\nA-1,Ada,broom\n'],
    ['not-amount', 2, 'reference,name,volume\nA-1,Ada,large\n'],
    ['not-amount', 2, 'reference,name,volume\nA-1,Ada,13 psi\n'],
    ['out-of-range', 2, 'reference,name,volume\nA-1,Ada,9 million gal\n'.replace('9 million', '9000000000')],
    ['out-of-range', 2, 'reference,name,clean-pump-vacuum\nA-1,Ada,45 inHg\n'],
    ['not-reading', 2, 'reference,name,clean-filter-pressure\nA-1,Ada,fine\n'],
  ];

  it.each(BAD)('should say %s by its line %i, and take nothing', (code, line, content) => {
    const { problems } = readPoolTable(typeof content === 'string' ? Buffer.from(content) : content);
    expect(problems.map((problem) => [problem.code, problem.line])).toContainEqual([code, line]);
    const before = recorded();
    const [answer] = crowd.sendFile('ann', content);
    expect(answer?.id).toBe('import-problems');
    expect(answer?.text).not.toMatch(/company:|undefined|\{\{/);
    take(content);
    expect(recorded()).toEqual(before);
  });

  it('should have a case here for every problem there is', () => {
    expect(new Set(BAD.map(([code]) => code))).toEqual(new Set(PROBLEM_CODES));
  });

  it('should take none of fifty good lines where the last one is wrong, and say how many are', () => {
    const good = Array.from({ length: 50 }, (_, n) => `B-${n},Pool ${n},suction`);
    const wrong = Array.from({ length: 30 }, (_, n) => `C-${n},Pool ${n},broom`);
    const [answer] = crowd.sendFile('ann', ['reference,name,cleaner', ...good, ...wrong].join('\n'));
    expect(answer?.text).toMatch(/Problems in the file: 30/);
    expect(answer?.text).toMatch(/Line 52/);
    expect(answer?.text).toMatch(/and 20 more/);
    expect(allRows(crowd.database).pool).toEqual([]);
  });

  it('should undo all of an import that fails half way', () => {
    const failing = (): void => {
      crowd.store.together(() => {
        crowd.store.pools.take(company, Buffer.from(TABLE), 'pool', crowd.now());
        throw new Error('the power went');
      });
    };
    expect(failing).toThrow('the power went');
    expect(allRows(crowd.database).pool).toEqual([]);
  });
});

describe('an export', () => {
  it('should be taken back without a change to the record', () => {
    take(TABLE);
    const { pool, equipment, reading } = allRows(crowd.database);
    const plan = take(crowd.store.pools.written(company));
    expect(plan.problems).toEqual([]);
    const after = allRows(crowd.database);
    expect([after.pool, after.equipment, after.reading]).toEqual([pool, equipment, reading]);
  });

  it('should hold no cell that a spreadsheet takes for a formula', () => {
    const evil = ['=1+1', '+1', '-1', '@SUM(A1)', '=HYPERLINK("x")'];
    const lines = evil.map(
      (text, n) => `"${text.replaceAll('"', '""')}","${text.replaceAll('"', '""')} ${n}"`,
    );
    take(['reference,name', ...lines].join('\n'));
    const written = crowd.store.pools.written(company);
    const cells = written
      .replace('\uFEFF', '')
      .split(/\r\n|,/)
      .map((cell) => cell.replace(/^"/, ''));
    // OWASP, "CSV Injection": cells beginning with = + - @, tab or carriage return.
    expect(cells.filter((cell) => /^[=+\-@\t\r]/.test(cell))).toEqual([]);
    expect(take(written).changed).toBe(0);
  });

  it('should guard any text so that it can be had back', () => {
    fc.assert(
      fc.property(fc.string({ unit: fc.constantFrom("'", '=', '+', '-', '@', '\t', 'a', '1') }), (text) => {
        expect(unguarded(guarded(text))).toBe(text);
        expect(guarded(text)).not.toMatch(/^[=+\-@\t\r]/);
      }),
      { numRuns: 2000, seed: 7 },
    );
  });

  it('should be sent as a file to those who may have it', () => {
    take(TABLE);
    const [message] = crowd.say('ann', '/export');
    expect(message).toMatchObject({ kind: 'file', file: { holds: 'pools', company } });
  });
});
