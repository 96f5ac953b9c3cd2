/** The office of one person at one moment, read as it is asked. */
import type { Database } from 'better-sqlite3';
import type { Office } from '../../dialogues/company/office.ts';
import type { FullCase } from '../../dialogues/record.ts';
import { poolTakerOf } from '../pool-table/take.ts';
import { companyPoolsOf } from './company-pools.ts';
import { invitationsOf } from './invitations.ts';
import { membershipsOf } from './memberships.ts';
import { reportReader } from './report.ts';
import { uploadsOf } from './uploads.ts';
import { visitBooksReader } from './visits.ts';

/** Gives the office for a person at a time; statements are prepared once a database. */
export function officeReader(database: Database): (person: string, at: number) => Office<FullCase> {
  const pools = companyPoolsOf(database);
  const invitations = invitationsOf(database);
  const memberships = membershipsOf(database);
  const uploads = uploadsOf(database);
  const taker = poolTakerOf(database);
  const rowsOf = reportReader(database);
  const visits = visitBooksReader(database);
  return (person, at) => ({
    offerOf: (payload) => invitations.offerOf(payload, person, at),
    offerAgain: (invitation) => invitations.offerAgain(invitation, at),
    pools: ({ company }, text, limit) => pools.matching(company.id, text, limit),
    pool: ({ company }, pool) => pools.byId(company.id, pool),
    poolCount: ({ company }) => pools.count(company.id),
    invitations: ({ company }, limit) => invitations.open(company.id, limit, at),
    reportRows: ({ company }, period) => rowsOf(company.id, period),
    people: ({ company }, limit) => memberships.people(company.id, limit),
    visits: visits(person),
    plan: ({ company }, upload) => {
      const content = uploads.content(upload, person);
      return content && taker.plan(company.id, content);
    },
  });
}
