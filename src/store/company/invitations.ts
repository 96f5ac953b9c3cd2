/** Invitations by link. Of the link's secret only a hash is kept; it opens once, for one role, until it expires. */
import { createHash } from 'node:crypto';
import type { Database } from 'better-sqlite3';
import type { CompanyRole, Offer, OpenInvitation } from '../../dialogues/company/company.ts';
import { OPEN_TRIES, waitAfter } from '../../dialogues/company/link.ts';
import type { CompanyRow } from './companies.ts';
import { companyOf } from './companies.ts';

/** An invitation to be written down. */
export interface Invitation {
  id: string;
  payload: string;
  company: string;
  role: CompanyRole;
  pool?: string | undefined;
  madeBy?: string | undefined;
  expiresAt: number;
}

export interface Invitations {
  add(invitation: Invitation, at: number): void;
  /** What an open invitation offers, looked up by its link's payload for a person; undefined for one who has to wait. */
  offerOf(payload: string, person: string, at: number): Offer | undefined;
  offerAgain(id: string, at: number): Offer | undefined;
  open(company: string, limit: number, at: number): OpenInvitation[];
  revoke(id: string, company: string, at: number): void;
  /** Marks as used; false where it is no longer open. */
  use(id: string, at: number): boolean;
  failed(person: string, at: number): void;
  forgetTries(person: string): void;
}

/** What is kept of a payload. 128 random bits need no salt and no slow hash. */
function hashOf(payload: string): string {
  return createHash('sha256').update(payload).digest('hex');
}

type OfferRow = CompanyRow & {
  invitation: string;
  role: CompanyRole;
  pool: string | null;
  pool_name: string | null;
};

function offer(row: OfferRow | undefined): Offer | undefined {
  if (row === undefined) return undefined;
  const { invitation, role, pool, pool_name: name } = row;
  const found = { invitation, role, company: companyOf(row) };
  return pool === null || name === null ? found : { ...found, pool: { id: pool, name } };
}

const OPEN = 'used_at IS NULL AND revoked_at IS NULL AND expires_at > ?';
const OFFER = `SELECT company.*, invitation.id AS invitation, invitation.role, invitation.pool, pool.name AS pool_name
  FROM invitation JOIN company ON company.id = invitation.company LEFT JOIN pool ON pool.id = invitation.pool
  WHERE ${OPEN} AND (invitation.pool IS NULL OR pool.person IS NULL)`;

interface Tries extends Pick<Invitations, 'failed' | 'forgetTries'> {
  mustWait(person: string, at: number): boolean;
}

function triesOf(database: Database): Tries {
  const known = database.prepare<[string], { failed: number; last_at: number }>(
    'SELECT failed, last_at FROM link_tries WHERE person = ?',
  );
  const add = database.prepare(
    `INSERT INTO link_tries (person, failed, last_at) VALUES (?, 1, ?)
     ON CONFLICT (person) DO UPDATE SET failed = failed + 1, last_at = excluded.last_at`,
  );
  const forget = database.prepare('DELETE FROM link_tries WHERE person = ?');
  return {
    mustWait: (person, at) => {
      const row = known.get(person);
      return row !== undefined && row.failed >= OPEN_TRIES && at < row.last_at + waitAfter(row.failed);
    },
    failed: (person, at) => void add.run(person, at),
    forgetTries: (person) => void forget.run(person),
  };
}

/** The invitations of a database. */
export function invitationsOf(database: Database): Invitations {
  const insert = database.prepare(
    `INSERT INTO invitation (id, hash, company, role, pool, made_by, made_at, expires_at)
     VALUES (?, ?, ?, ?, ?, ?, ?, ?)`,
  );
  const byHash = database.prepare<[number, string], OfferRow>(`${OFFER} AND invitation.hash = ?`);
  const byId = database.prepare<[number, string], OfferRow>(`${OFFER} AND invitation.id = ?`);
  const open = database.prepare<
    [number, string, number],
    { id: string; role: CompanyRole; pool: string | null; made_at: number; expires_at: number }
  >(
    `SELECT invitation.id, role, pool.name AS pool, made_at, expires_at
     FROM invitation LEFT JOIN pool ON pool.id = invitation.pool
     WHERE ${OPEN} AND company = ? ORDER BY made_at DESC, invitation.rowid DESC LIMIT ?`,
  );
  const revoke = database.prepare(
    'UPDATE invitation SET revoked_at = ? WHERE id = ? AND company = ? AND used_at IS NULL AND revoked_at IS NULL',
  );
  const use = database.prepare(`UPDATE invitation SET used_at = ? WHERE ${OPEN} AND id = ?`);
  const tries = triesOf(database);
  return {
    add: ({ id, payload, company, role, pool, madeBy, expiresAt }, at) =>
      void insert.run(id, hashOf(payload), company, role, pool ?? null, madeBy ?? null, at, expiresAt),
    offerOf: (payload, person, at) =>
      tries.mustWait(person, at) ? undefined : offer(byHash.get(at, hashOf(payload))),
    offerAgain: (id, at) => offer(byId.get(at, id)),
    open: (company, limit, at) =>
      open.all(at, company, limit).map(({ id, role, pool, made_at: madeAt, expires_at: expiresAt }) => ({
        id,
        role,
        madeAt,
        expiresAt,
        ...(pool === null ? {} : { pool }),
      })),
    revoke: (id, company, at) => void revoke.run(at, id, company),
    use: (id, at) => use.run(at, at, id).changes > 0,
    failed: (person, at) => tries.failed(person, at),
    forgetTries: (person) => tries.forgetTries(person),
  };
}
