/** What was confirmed at a company's pools moves the next case there, and no case of another company. */
import { describe, expect, it } from 'vitest';
import type { Crowd } from '../driver/crowd.ts';
import { GROUP, leaveOut, someCompany, visitOf } from './visit-crowd.ts';

/** Closes so many visits of the company with one cause. */
function confirmed(crowd: Crowd, company: string, fault: string, count: number): void {
  const insert = crowd.database.prepare(
    "INSERT INTO confirmed_cause (company, cleaner, filter, fault, at) VALUES (?, 'suction', 'sand', ?, ?)",
  );
  for (let i = 0; i < count; i += 1) insert.run(company, fault, crowd.now() - 1000);
}

/** The reasons for what is suspected at the beginning of a case. */
function why(crowd: Crowd, owner: string): string {
  crowd.choose(owner, 'not-moving');
  let heard = crowd.say(owner, '/repeat');
  const id = `test:${owner}`;
  while (crowd.bot.stateOf(id, id) !== 'consult') heard = leaveOut(crowd, owner, heard.at(-1));
  return crowd.say(owner, '/why')[0]?.text ?? '';
}

describe('confirmed causes of a company', () => {
  it('should move the suspicion at another of its pools, and be named in the reasons', () => {
    const plain = someCompany(false).crowd;
    const reasons = why(plain, 'bob');
    expect(reasons).toContain('%');
    expect(reasons).not.toContain('this company');
    plain.close();
    const { crowd, company } = someCompany(false);
    confirmed(crowd, company, 'hose-split', 30);
    expect(why(crowd, 'bob')).toMatch(/\d+ %: a split hose section .*this company met it often/);
    expect(why(crowd, 'eva')).toMatch(/manguera rajado .*esta empresa lo encontró a menudo/);
    crowd.close();
  });

  it('should not move a case of another company', () => {
    const { crowd, company } = someCompany(false);
    const other = crowd.company('Foxglove Pools', 'zoe');
    crowd.sendFile('zoe', 'reference,name,cleaner,filter\nB-1,Garden of Zed,suction,sand');
    crowd.choose('zoe', 'yes');
    crowd.join('zed', other, 'owner', crowd.poolCalled('Garden of Zed'));
    const before = why(crowd, 'zed');
    expect(before).toContain('%');
    crowd.say('zed', '/stop');
    confirmed(crowd, company, 'hose-split', 30);
    expect(why(crowd, 'zed')).toBe(before);
    crowd.close();
  });

  it('should learn from a visit that is closed, for the class of the pool', () => {
    const { crowd, company } = someCompany(true);
    const visit = visitOf(crowd);
    crowd.choose('dee', `assign-visit/${visit}`, GROUP);
    crowd.choose('dee', 'test:tess', GROUP);
    crowd.say('tess', 'closed: split hose, new section, 25 minutes');
    const rows = crowd.database.prepare('SELECT company, cleaner, filter, fault FROM confirmed_cause').all();
    expect(rows).toEqual([{ company, cleaner: 'suction', filter: 'sand', fault: 'hose-split' }]);
    crowd.close();
  });
});
