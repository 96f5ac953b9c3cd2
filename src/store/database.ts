/** Opening the database file: pragmas, migrations, and plain words where it cannot be used. */
import { existsSync, mkdirSync } from 'node:fs';
import { dirname } from 'node:path';
import Database from 'better-sqlite3';
import { MIGRATIONS } from './schema.ts';

/** The database cannot be used as it is: read-only, full, locked or not a database. */
export class StoreUnusable extends Error {
  override readonly name = 'StoreUnusable';
  constructor(
    readonly reason: string,
    options?: ErrorOptions,
  ) {
    super(`The store cannot be used: ${reason}`, options);
  }
}

const UNUSABLE = /^SQLITE_(READONLY|FULL|CANTOPEN|IOERR|NOTADB|CORRUPT|PERM|BUSY)/;

/** The error as a StoreUnusable where the file is at fault, else as it came. */
export function asStoreError(error: unknown): unknown {
  if (error instanceof Database.SqliteError && UNUSABLE.test(error.code))
    return new StoreUnusable(error.message, { cause: error });
  return error;
}

/**
 * Brings the database to the present version. References are not enforced meanwhile, for a table may have to be built
 * anew; they are checked before each step is kept.
 */
function migrate(database: Database.Database): void {
  const from = database.pragma('user_version', { simple: true }) as number;
  if (from > MIGRATIONS.length)
    throw new StoreUnusable(`it was written by a later version of padside (${from} > ${MIGRATIONS.length})`);
  for (const [index, step] of MIGRATIONS.entries()) {
    if (index < from) continue;
    database.transaction(() => {
      database.exec(step);
      const broken = database.pragma('foreign_key_check') as unknown[];
      if (broken.length > 0) throw new StoreUnusable(`${broken.length} references lead nowhere`);
      database.pragma(`user_version = ${index + 1}`);
    })();
  }
}

/** Makes a folder with those above it. One by one: node's own way of it hangs below /proc and its like. */
function makeFolder(folder: string): void {
  if (existsSync(folder)) return;
  makeFolder(dirname(folder));
  mkdirSync(folder);
}

/** Has the database keep every statement that it prepares: readers and writers of different parts share many. */
function keepStatements(database: Database.Database): void {
  const kept = new Map<string, unknown>();
  const prepare = database.prepare.bind(database);
  const prepareOnce = (source: string): unknown => {
    const statement = kept.get(source) ?? prepare(source);
    kept.set(source, statement);
    return statement;
  };
  database.prepare = prepareOnce as typeof database.prepare;
}

/**
 * Opens the database file, creating and migrating it as needed. `:memory:` keeps it in memory.
 * Throws StoreUnusable where the file cannot be read or written.
 */
export function openDatabase(file: string): Database.Database {
  try {
    if (file !== ':memory:') makeFolder(dirname(file));
    const database = new Database(file, { timeout: 5000 });
    database.pragma('journal_mode = WAL');
    database.pragma('synchronous = FULL');
    // What is removed is overwritten, not only unlinked.
    database.pragma('secure_delete = ON');
    database.pragma('foreign_keys = OFF');
    migrate(database);
    database.pragma('foreign_keys = ON');
    keepStatements(database);
    return database;
  } catch (error) {
    if (error instanceof Error && 'syscall' in error)
      throw new StoreUnusable(error.message, { cause: error });
    throw asStoreError(error);
  }
}
