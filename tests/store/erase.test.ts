/** Erasing a person: no row of theirs is left in any table, and nobody else loses one. */
import { describe, expect, it } from 'vitest';
import { startTalk } from '../driver/talk.ts';
import type { OpenStore } from './fixtures.ts';
import { A_MOMENT, allRows, atCompany, freshStore, poolWithCase, received, turnOf } from './fixtures.ts';

/** Tables with a row in which some value names the person, whatever its column. */
function tablesNaming(person: string, { database }: OpenStore): string[] {
  return Object.entries(allRows(database))
    .filter(([, rows]) => rows.some((row) => JSON.stringify(row).includes(person)))
    .map(([table]) => table);
}

function twoPeople(): OpenStore {
  const open = freshStore();
  open.store.companies.create({ id: 'company', name: 'Invented company', locale: 'en' }, A_MOMENT);
  for (const [key, person] of ['ana', 'berta'].entries()) {
    const entry = received(open.store, person, String(key));
    const photo = { file: `photo of ${person}`, consult: `case-${person}`, step: 'water-level' };
    open.store.commit({ ...turnOf(entry, 0, poolWithCase(person)), photo });
    atCompany(open, person);
  }
  return open;
}

describe('erasing a person', () => {
  it('should start from a person who is in every table', () => {
    const open = twoPeople();
    const filled = Object.entries(allRows(open.database)).filter(([, rows]) => rows.length > 0);
    expect(filled.map(([table]) => table).sort()).toEqual(Object.keys(allRows(open.database)).sort());
    open.store.close();
  });

  it('should leave nothing but the conversation that goes on from there', () => {
    const open = twoPeople();
    const erased = turnOf(received(open.store, 'ana', '7'), 1, [{ do: 'erase-person' }]);
    open.store.commit({ ...erased, state: { ...erased.state, pool: '' } });
    const rows = allRows(open.database);
    const ofAna = (table: string): unknown[] =>
      (rows[table] ?? []).filter((row) => JSON.stringify(row).includes('ana'));
    const goesOn = ['person', 'conversation', 'inbox', 'outbox'];
    for (const table of Object.keys(rows).filter((name) => !goesOn.includes(name)))
      expect([table, ofAna(table)]).toEqual([table, []]);
    expect(ofAna('inbox')).toEqual([]);
    expect(ofAna('person')).toEqual([expect.objectContaining({ locale: null, role: null })]);
    expect(JSON.stringify(rows)).not.toContain('answer to 0');
    open.store.close();
  });

  it('should leave every row of anybody else', () => {
    const open = twoPeople();
    const before = allRows(open.database);
    open.store.commit(turnOf(received(open.store, 'ana', '7'), 1, [{ do: 'erase-person' }]));
    const after = allRows(open.database);
    for (const [table, rows] of Object.entries(before)) {
      const ofBerta = rows.filter((row) => JSON.stringify(row).includes('berta'));
      expect(after[table]).toEqual(expect.arrayContaining(ofBerta));
    }
    expect(tablesNaming('berta', open)).toContain('consult');
    open.store.close();
  });

  it('should keep no word of what was said in the conversation', () => {
    const open = freshStore();
    const talk = startTalk({
      role: 'owner',
      store: open.store,
      pool: { name: 'Lagoon', equipment: {}, clean: {} },
    });
    talk.say('my cleaner does not move, filter 34 psi');
    talk.say('/erase');
    talk.choose('yes');
    const left = JSON.stringify(allRows(open.database));
    expect(left).not.toContain('Lagoon');
    expect(left).not.toContain('34 psi');
    expect(left).not.toContain('does not move');
    expect(talk.pools()).toEqual([]);
    talk.close();
  });
});
