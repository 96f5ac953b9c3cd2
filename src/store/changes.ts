/** Writing the changes of a turn. What a person said is added to or marked as taken back, never overwritten. */
import type { Database } from 'better-sqlite3';
import { isCompanyChange } from '../dialogues/company/changes.ts';
import type { RecordChange } from '../dialogues/record.ts';
import { companyChangeWriter } from './company/changes.ts';
import { eraser } from './erase.ts';

/** Writes one change of a turn by a person at a time in milliseconds. */
export type ChangeWriter = (change: RecordChange, person: string, at: number) => void;

/** The statements that write changes, prepared once a database. */
export function changeWriter(database: Database): ChangeWriter {
  const setLocale = database.prepare('UPDATE person SET locale = ? WHERE id = ?');
  const setZone = database.prepare('UPDATE person SET time_zone = ? WHERE id = ?');
  const setRole = database.prepare('UPDATE person SET role = ? WHERE id = ?');
  const setSpoken = database.prepare('UPDATE person SET spoken = ? WHERE id = ?');
  const createPool = database.prepare('INSERT INTO pool (id, person, name, created_at) VALUES (?, ?, ?, ?)');
  const equip = database.prepare('INSERT INTO equipment (pool, key, value, at) VALUES (?, ?, ?, ?)');
  const noteMissing = database.prepare(
    'INSERT OR IGNORE INTO missing_instrument (pool, instrument, at) VALUES (?, ?, ?)',
  );
  const noteReading = database.prepare(
    'INSERT INTO reading (pool, quantity, value, said, clean, at) VALUES (?, ?, ?, ?, ?, ?)',
  );
  const openCase = database.prepare(
    'INSERT INTO consult (id, pool, complaint, role, opened_at) VALUES (?, ?, ?, ?, ?)',
  );
  const addEvent = database.prepare('INSERT INTO consult_event (consult, event, at) VALUES (?, ?, ?)');
  const withdraw = database.prepare(
    `UPDATE consult_event SET withdrawn_at = ? WHERE id IN (
       SELECT id FROM consult_event WHERE consult = ? AND withdrawn_at IS NULL ORDER BY id LIMIT -1 OFFSET ?)`,
  );
  const closeCase = database.prepare('UPDATE consult SET closed_at = ?, outcome = ?, fault = ? WHERE id = ?');
  const erase = eraser(database);
  const writeCompany = companyChangeWriter(database);

  return (change, person, at) => {
    if (isCompanyChange(change)) {
      writeCompany(change, person, at);
      return;
    }
    switch (change.do) {
      case 'set-person':
        if (change.locale !== undefined) setLocale.run(change.locale, person);
        if (change.role !== undefined) setRole.run(change.role, person);
        if (change.spoken !== undefined) setSpoken.run(change.spoken ? 1 : 0, person);
        if (change.timeZone !== undefined) setZone.run(change.timeZone, person);
        return;
      case 'create-pool':
        createPool.run(change.pool, person, change.name, at);
        return;
      case 'equip':
        equip.run(change.pool, change.key, change.value, at);
        return;
      case 'note-missing':
        noteMissing.run(change.pool, change.instrument, at);
        return;
      case 'note-reading': {
        const { quantity, value, said, clean } = change.reading;
        noteReading.run(change.pool, quantity, value, said, clean ? 1 : 0, change.reading.at);
        return;
      }
      case 'open-case':
        openCase.run(change.case, change.pool, change.complaint, change.role, at);
        return;
      case 'add-event':
        addEvent.run(change.case, JSON.stringify(change.event), at);
        return;
      case 'withdraw-events':
        withdraw.run(at, change.case, change.keep);
        return;
      case 'close-case':
        closeCase.run(at, change.outcome, change.fault ?? null, change.case);
        return;
      case 'erase-person':
        erase(person);
        return;
    }
  };
}
