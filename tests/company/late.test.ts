/** A brief that nobody accepts: the reminder, then the escalation, and nothing once it was accepted. */
import { describe, expect, it } from 'vitest';
import type { Colleague, Company } from '../../src/dialogues/company/company.ts';
import type { JobFacts } from '../../src/dialogues/company/job-run.ts';
import type { Job } from '../../src/dialogues/company/job.ts';
import { acceptEscalate, acceptLate } from '../../src/dialogues/company/visits/late.ts';
import type { Visit, VisitState } from '../../src/dialogues/company/visits/visit.ts';
import { VISIT_STATES } from '../../src/dialogues/company/visits/visit.ts';
import { allRows } from '../store/fixtures.ts';
import { someCompany, visitOf } from './visit-crowd.ts';

const NOW = Date.UTC(2030, 5, 1, 11);
const COMPANY: Company = {
  id: 'heron',
  name: 'Blue Heron Pools',
  locale: 'es',
  phone: '',
  hours: '',
  handOffMinutes: 120,
  acceptWithinMinutes: 45,
  timeZone: 'UTC',
  retentionMonths: 24,
};
const visit = (state: VisitState): Visit => ({
  id: 'v',
  company: 'heron',
  pool: 'p',
  poolName: 'Garden',
  reference: 'A-1',
  address: '',
  state,
  technicianName: '',
  suits: '',
  gateNotes: '',
  openedAt: NOW - 45 * 60_000,
});
const person = (name: string, role: Colleague['role']): Colleague => ({
  person: name,
  role,
  name,
  since: 0,
  pools: [],
});
const STAFF = [
  person('ann', 'administrator'),
  person('ann', 'dispatcher'),
  person('dee', 'dispatcher'),
  person('tess', 'technician'),
];
const WITH_CHAT: Company = { ...COMPANY, staffChat: 'test:yard' };
const factsOf = (company: Company, state: VisitState | undefined): JobFacts => ({
  now: NOW,
  company: (id) => (id === company.id ? company : undefined),
  staff: () => STAFF,
  visit: () => (state === undefined ? undefined : visit(state)),
  pool: () => undefined,
  poolOfCase: () => undefined,
});
const JOB: Job = { kind: 'accept-late', about: 'v', company: 'heron', dueAt: NOW };

describe('a brief that nobody accepts', () => {
  it('should remind the staff chat in its language and plan the escalation after as long again', () => {
    const { sends, changes } = acceptLate(JOB, factsOf(WITH_CHAT, 'new'));
    expect(sends?.map(({ to, locale, about }) => ({ to, locale, about }))).toEqual([
      { to: { chat: 'test:yard' }, locale: 'es', about: 'p' },
    ]);
    expect(sends?.[0]?.says[0]?.options?.map(({ id }) => id)).toContain('accept-visit/v');
    const dueAt = NOW + 45 * 60_000;
    expect(changes).toEqual([
      { do: 'plan-job', kind: 'accept-escalate', about: 'v', company: 'heron', dueAt },
    ]);
  });

  it('should remind each in the office once where there is no staff chat', () => {
    const { sends } = acceptLate(JOB, factsOf(COMPANY, 'new'));
    expect(sends?.map(({ to }) => to)).toEqual([{ person: 'ann' }, { person: 'dee' }]);
  });

  it('should escalate to the administrators, and plan nothing more', () => {
    const move = acceptEscalate({ ...JOB, kind: 'accept-escalate' }, factsOf(COMPANY, 'new'));
    expect(move.sends?.map(({ to }) => to)).toEqual([{ person: 'ann' }]);
    expect(move.changes ?? []).toEqual([]);
  });

  it.each([...VISIT_STATES.filter((state) => state !== 'new'), undefined])(
    'should do nothing of a visit that is %s',
    (state) => {
      expect(acceptLate(JOB, factsOf(COMPANY, state))).toEqual({});
      expect(acceptEscalate(JOB, factsOf(COMPANY, state))).toEqual({});
    },
  );

  it('should be looked at when the time of the company to accept is over', () => {
    const { crowd, company } = someCompany(true);
    crowd.store.companies.set(company, { key: 'accept-within-minutes', value: 45 });
    const id = visitOf(crowd);
    expect(allRows(crowd.database).job).toMatchObject([
      { kind: 'accept-late', about: id, company, due_at: crowd.now() + 45 * 60_000, done_at: null },
    ]);
    crowd.close();
  });
});
