/** Who belongs to which company, as what. */
import type { Database } from 'better-sqlite3';
import type { Colleague, CompanyRole, Membership } from '../../dialogues/company/company.ts';
import type { CompanyRow } from './companies.ts';
import { companyOf } from './companies.ts';
import { visitCanceller } from './visit-changes.ts';

export interface Memberships {
  /** What the person is to companies now. */
  of(person: string): Membership[];
  add(person: string, company: string, role: CompanyRole, at: number): void;
  /** Ends every membership of a person in a company; an owner's pools stay with the owner. */
  end(person: string, company: string, at: number): void;
  /** Ends one role of a person in a company. */
  endRole(person: string, company: string, role: CompanyRole, at: number): void;
  people(company: string, limit: number): Colleague[];
  /** Gives a person the name that the staff know them by. */
  name(person: string, name: string): void;
}

interface PersonRow {
  person: string;
  role: CompanyRole;
  name: string;
  since: number;
}

/** The memberships of a database. */
export function membershipsOf(database: Database): Memberships {
  const present = database.prepare<
    [string],
    CompanyRow & { role: CompanyRole; since: number; known_as: string }
  >(
    `SELECT company.*, membership.role, membership.since, membership.name AS known_as FROM membership JOIN company ON company.id = membership.company
     WHERE membership.person = ? AND left_at IS NULL ORDER BY since, membership.rowid`,
  );
  const insert = database.prepare(
    `INSERT INTO membership (person, company, role, since) VALUES (?, ?, ?, ?)
     ON CONFLICT (person, company, role) DO UPDATE SET since = excluded.since, left_at = NULL WHERE left_at IS NOT NULL`,
  );
  const endAll = database.prepare(
    'UPDATE membership SET left_at = ? WHERE person = ? AND company = ? AND left_at IS NULL',
  );
  const endOne = database.prepare(
    'UPDATE membership SET left_at = ? WHERE person = ? AND company = ? AND role = ? AND left_at IS NULL',
  );
  const cancelVisits = visitCanceller(database);
  const forgetPools = database.prepare(
    'DELETE FROM company_pool WHERE company = ? AND pool IN (SELECT id FROM pool WHERE person = ?)',
  );
  const people = database.prepare<[string, number], PersonRow>(
    `SELECT person, role, name, since FROM membership WHERE company = ? AND left_at IS NULL
     ORDER BY role = 'owner', since, rowid LIMIT ?`,
  );
  const poolNames = database.prepare<[string, string], { name: string }>(
    `SELECT pool.name FROM pool JOIN company_pool ON company_pool.pool = pool.id
     WHERE pool.person = ? AND company_pool.company = ? ORDER BY pool.name`,
  );
  const rename = database.prepare('UPDATE membership SET name = ? WHERE person = ?');
  const letGo = (company: string, person: string, at: number): void => {
    cancelVisits(company, person, at);
    forgetPools.run(company, person);
  };
  return {
    of: (person) =>
      present.all(person).map((row) => ({
        company: companyOf(row),
        role: row.role,
        since: row.since,
        ...(row.known_as === '' ? {} : { name: row.known_as }),
      })),
    add: (person, company, role, at) => void insert.run(person, company, role, at),
    end: (person, company, at) => {
      endAll.run(at, person, company);
      letGo(company, person, at);
    },
    endRole: (person, company, role, at) => {
      endOne.run(at, person, company, role);
      if (role === 'owner') letGo(company, person, at);
    },
    people: (company, limit) =>
      people.all(company, limit).map((row) => ({
        ...row,
        pools: row.role === 'owner' ? poolNames.all(row.person, company).map(({ name }) => name) : [],
      })),
    name: (person, name) => void rename.run(name, person),
  };
}
