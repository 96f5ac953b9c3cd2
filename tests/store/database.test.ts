import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import Database from 'better-sqlite3';
import { afterAll, describe, expect, it } from 'vitest';
import { openDatabase, StoreUnusable } from '../../src/store/database.ts';
import { MIGRATIONS } from '../../src/store/schema.ts';
import { storeOn } from '../../src/store/store.ts';
import { allRows, poolWithCase, received, turnOf } from './fixtures.ts';

const folder = mkdtempSync(join(tmpdir(), 'padside-store-'));
afterAll(() => rmSync(folder, { recursive: true }));

const file = (name: string): string => join(folder, name);

describe('opening a database', () => {
  it('should bring an empty file to the present version', () => {
    const database = openDatabase(file('fresh/deep/pool.sqlite'));
    expect(database.pragma('user_version', { simple: true })).toBe(MIGRATIONS.length);
    expect(Object.keys(allRows(database))).toEqual(
      expect.arrayContaining(['person', 'consult_event', 'outbox']),
    );
    database.close();
  });

  it('should bring a database of each earlier version to the same shape', () => {
    const shape = (database: Database.Database): unknown =>
      database
        .prepare("SELECT name, sql FROM sqlite_master WHERE name NOT LIKE 'sqlite_%' ORDER BY name")
        .all();
    const fresh = openDatabase(':memory:');
    for (let version = 0; version < MIGRATIONS.length; version += 1) {
      const path = file(`version-${version}.sqlite`);
      const old = new Database(path);
      for (const step of MIGRATIONS.slice(0, version)) old.exec(step);
      old.pragma(`user_version = ${version}`);
      old.close();
      const migrated = openDatabase(path);
      expect(shape(migrated)).toEqual(shape(fresh));
      migrated.close();
    }
    fresh.close();
  });

  it('should find everything again when it is opened a second time', () => {
    const path = file('again.sqlite');
    const first = storeOn(openDatabase(path));
    first.commit(turnOf(received(first, 'ana', '1'), 0, poolWithCase('ana')));
    const before = first.load('talk-ana', 'ana');
    first.close();
    const second = storeOn(openDatabase(path));
    expect(second.load('talk-ana', 'ana')).toEqual(before);
    second.close();
  });

  it('should refuse a database of a later version in words a person can act on', () => {
    const path = file('later.sqlite');
    const later = new Database(path);
    later.pragma(`user_version = ${MIGRATIONS.length + 1}`);
    later.close();
    expect(() => openDatabase(path)).toThrow(StoreUnusable);
    expect(() => openDatabase(path)).toThrow(/written by a later version/);
  });

  it('should refuse a file that is no database', () => {
    const path = file('notes.txt');
    writeFileSync(path, 'These are notes about a pool and no database at all.\n'.repeat(50));
    expect(() => openDatabase(path)).toThrow(StoreUnusable);
  });

  it('should refuse a folder', () => {
    expect(() => openDatabase(folder)).toThrow(StoreUnusable);
  });

  it('should refuse a path below a file', () => {
    writeFileSync(file('plain'), 'x');
    expect(() => openDatabase(join(file('plain'), 'pool.sqlite'))).toThrow(StoreUnusable);
  });
});
