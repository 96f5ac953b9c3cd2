/** A copy of the database in one file, taken while it is in use, and put back again. */
import { existsSync, mkdirSync, renameSync, rmSync, copyFileSync } from 'node:fs';
import { dirname } from 'node:path';
import Database from 'better-sqlite3';
import { MIGRATIONS } from './schema.ts';

/** Why a copy is not taken or put back; `facts` fill the words. */
export class CopyRefused extends Error {
  override readonly name = 'CopyRefused';
  constructor(
    readonly code: 'no-database' | 'exists' | 'not-a-backup' | 'later-version' | 'in-use' | 'newer',
    readonly facts: Record<string, string>,
  ) {
    super(code);
  }
}

function opened(file: string, code: 'no-database' | 'not-a-backup'): Database.Database {
  if (!existsSync(file)) throw new CopyRefused(code, { file });
  try {
    const database = new Database(file, { fileMustExist: true });
    database.pragma('user_version');
    return database;
  } catch {
    throw new CopyRefused(code, { file });
  }
}

/** Copies the database into a new file; the bot may go on meanwhile. Throws CopyRefused. */
export async function backUp(from: string, to: string): Promise<void> {
  if (existsSync(to)) throw new CopyRefused('exists', { file: to });
  const database = opened(from, 'no-database');
  try {
    mkdirSync(dirname(to), { recursive: true });
    await database.backup(to);
  } finally {
    database.close();
  }
  // One file, without companions: it can be copied anywhere.
  const copy = new Database(to);
  copy.pragma('journal_mode = DELETE');
  copy.close();
}

/** When something was last written, milliseconds since 1970; 0 where nothing was. */
function lastWritten(database: Database.Database): number {
  const row = database
    .prepare<[], { at: number | null }>(
      `SELECT MAX(at) AS at FROM (SELECT MAX(received_at) AS at FROM inbox
         UNION ALL SELECT MAX(written_at) FROM outbox UNION ALL SELECT MAX(at) FROM consult_event)`,
    )
    .get();
  return row?.at ?? 0;
}

/** Checks a backup and tells when it was last written to. Throws CopyRefused. */
function checkedBackup(file: string): number {
  const backup = opened(file, 'not-a-backup');
  try {
    const version = backup.pragma('user_version', { simple: true }) as number;
    if (version > MIGRATIONS.length) throw new CopyRefused('later-version', { file });
    const health = backup.pragma('integrity_check', { simple: true });
    if (version < 1 || health !== 'ok') throw new CopyRefused('not-a-backup', { file });
    return lastWritten(backup);
  } finally {
    backup.close();
  }
}

/** Makes sure that nobody uses the database, and that all of it is in its one file; tells when it was last written to. */
function quietDatabase(file: string): number {
  const database = opened(file, 'no-database');
  try {
    // Leaving write-ahead mode needs the file to oneself: it fails while any other program has it open.
    if (database.pragma('journal_mode = DELETE', { simple: true }) !== 'delete')
      throw new CopyRefused('in-use', { file });
    return database.pragma('user_version', { simple: true }) === 0 ? 0 : lastWritten(database);
  } catch (error) {
    if (error instanceof Database.SqliteError && error.code.startsWith('SQLITE_BUSY'))
      throw new CopyRefused('in-use', { file });
    throw error;
  } finally {
    database.close();
  }
}

/**
 * Puts a backup in the place of the database; what was there is kept beside it under the name that is returned.
 * Throws CopyRefused where the database is in use, or has been written to since and `evenIfNewer` is false.
 */
export function restore(from: string, to: string, evenIfNewer: boolean, now: number): string | undefined {
  const backedUpAt = checkedBackup(from);
  if (!existsSync(to)) {
    mkdirSync(dirname(to), { recursive: true });
    copyFileSync(from, to);
    return undefined;
  }
  const writtenAt = quietDatabase(to);
  if (writtenAt > backedUpAt && !evenIfNewer)
    throw new CopyRefused('newer', {
      file: to,
      written: new Date(writtenAt).toISOString(),
      backup: new Date(backedUpAt).toISOString(),
    });
  const kept = `${to}.before-${new Date(now).toISOString().replaceAll(':', '-')}`;
  const fresh = `${to}.restoring`;
  copyFileSync(from, fresh);
  renameSync(to, kept);
  for (const companion of ['-wal', '-shm']) rmSync(to + companion, { force: true });
  renameSync(fresh, to);
  return kept;
}
