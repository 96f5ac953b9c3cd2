/** Writing what a turn changes in a company. */
import type { Database } from 'better-sqlite3';
import type { CompanyChange } from '../../dialogues/company/changes.ts';
import { poolTakerOf } from '../pool-table/take.ts';
import { companiesOf } from './companies.ts';
import { companyPoolsOf } from './company-pools.ts';
import { invitationsOf } from './invitations.ts';
import { jobsOf } from './jobs.ts';
import { membershipsOf } from './memberships.ts';
import { uploadsOf } from './uploads.ts';
import { isVisitChange, visitChangeWriter } from './visit-changes.ts';

/** Writes one change of a company by a person at a time in milliseconds. */
export type CompanyChangeWriter = (change: CompanyChange, person: string, at: number) => void;

function joiner(database: Database): (invitation: string, person: string, at: number) => void {
  const invitations = invitationsOf(database);
  const memberships = membershipsOf(database);
  const pools = companyPoolsOf(database);
  return (id, person, at) => {
    const offer = invitations.offerAgain(id, at);
    // The turn saw it open; both are of one transaction.
    if (offer === undefined || !invitations.use(id, at)) throw new Error('The invitation is no longer open');
    memberships.add(person, offer.company.id, offer.role, at);
    invitations.forgetTries(person);
    if (offer.pool !== undefined) pools.claim(offer.pool.id, person, at);
  };
}

/** The statements that write changes of companies, prepared once a database. */
export function companyChangeWriter(database: Database): CompanyChangeWriter {
  const companies = companiesOf(database);
  const memberships = membershipsOf(database);
  const invitations = invitationsOf(database);
  const uploads = uploadsOf(database);
  const taker = poolTakerOf(database);
  const jobs = jobsOf(database);
  const join = joiner(database);
  const writeVisit = visitChangeWriter(database);
  return (change, person, at) => {
    if (isVisitChange(change)) {
      writeVisit(change, person, at);
      return;
    }
    switch (change.do) {
      case 'set-company':
        companies.set(change.company, change.setting);
        return;
      case 'set-staff-chat':
        companies.setStaffChat(change.company, change.chat, change.locale);
        return;
      case 'invite':
        invitations.add({ ...change, id: change.invitation, madeBy: person }, at);
        return;
      case 'revoke-invitation':
        invitations.revoke(change.invitation, change.company, at);
        return;
      case 'join-company':
        join(change.invitation, person, at);
        return;
      case 'name-self':
        memberships.name(person, change.name);
        return;
      case 'note-failed-link':
        invitations.failed(person, at);
        return;
      case 'leave-company':
        memberships.end(person, change.company, at);
        return;
      case 'remove-colleague':
        memberships.endRole(change.person, change.company, change.role, at);
        return;
      case 'import-pools': {
        const content = uploads.content(change.upload, person);
        if (content === undefined) throw new Error('The file to import is gone');
        taker.take(change.company, content, change.upload, at);
        uploads.forget(change.upload, person);
        return;
      }
      case 'forget-upload':
        uploads.forget(change.upload, person);
        return;
      case 'plan-job':
        jobs.plan(change);
        return;
      case 'reminder-off':
        jobs.switchOff(person, change.kind, change.pool, at);
        return;
    }
  };
}
