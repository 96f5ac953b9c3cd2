/** The pools that a company looks after. */
import type { Database } from 'better-sqlite3';
import type { PoolLine } from '../../dialogues/company/company.ts';
import type { Locale } from '../../dialogues/event.ts';

export interface CompanyPools {
  matching(company: string, text: string, limit: number): PoolLine[];
  byId(company: string, pool: string): PoolLine | undefined;
  count(company: string): number;
  /** Gives a pool that nobody owns yet to a person; false where somebody does. */
  claim(pool: string, person: string, at: number): boolean;
}

interface LineRow {
  id: string;
  name: string;
  reference: string;
  address: string;
  locale: Locale | null;
  owned: number;
}

function lineOf({ locale, owned, ...row }: LineRow): PoolLine {
  return { ...row, isOwned: owned === 1, ...(locale === null ? {} : { locale }) };
}

const LINE = `SELECT pool.id, pool.name, reference, address, company_pool.locale, pool.person IS NOT NULL AS owned
  FROM company_pool JOIN pool ON pool.id = company_pool.pool WHERE company_pool.company = ?`;

/** A pattern that finds the text as it stands. */
function anywhere(text: string): string {
  return `%${text.trim().replaceAll(/[\\%_]/g, '\\$&')}%`;
}

/** The pools of the companies of a database. */
export function companyPoolsOf(database: Database): CompanyPools {
  const matching = database.prepare<[string, string, string, string, number], LineRow>(
    `${LINE} AND (pool.name LIKE ? ESCAPE '\\' OR reference LIKE ? ESCAPE '\\' OR address LIKE ? ESCAPE '\\')
     ORDER BY pool.name COLLATE NOCASE, reference LIMIT ?`,
  );
  const one = database.prepare<[string, string], LineRow>(`${LINE} AND pool.id = ?`);
  const count = database.prepare<[string], { n: number }>(
    'SELECT COUNT(*) AS n FROM company_pool WHERE company = ?',
  );
  const claim = database.prepare('UPDATE pool SET person = ? WHERE id = ? AND person IS NULL');
  const touch = database.prepare('UPDATE company_pool SET touched_at = ? WHERE pool = ?');
  return {
    matching: (company, text, limit) => {
      const pattern = anywhere(text);
      return matching.all(company, pattern, pattern, pattern, limit).map(lineOf);
    },
    byId: (company, pool) => {
      const row = one.get(company, pool);
      return row && lineOf(row);
    },
    count: (company) => count.get(company)?.n ?? 0,
    claim: (pool, person, at) => {
      touch.run(at, pool);
      return claim.run(person, pool).changes > 0;
    },
  };
}
