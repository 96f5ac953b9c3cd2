/** Writing what a turn changes about visits. */
import type { Database } from 'better-sqlite3';
import { VISIT_CHANGES } from '../../dialogues/company/visits/changes.ts';
import type { VisitChange } from '../../dialogues/company/visits/changes.ts';
import { SOMETHING_ELSE } from '../../knowledge/ids.ts';

type Of<Do extends VisitChange['do']> = Extract<VisitChange, { do: Do }>;

/** Whether a change is one of visits. */
export function isVisitChange(change: { do: string }): change is VisitChange {
  return VISIT_CHANGES.some((known) => known === change.do);
}

function opener(database: Database): (change: Of<'open-visit'>, person: string, at: number) => void {
  const insert = database.prepare(
    `INSERT INTO visit (id, company, pool, consult, state, suits, gate_notes, opened_at)
     VALUES (?, ?, ?, ?, 'new', ?, ?, ?)`,
  );
  const keepCode = database.prepare('INSERT INTO gate_code (visit, code) VALUES (?, ?)');
  const note = database.prepare(
    "INSERT INTO visit_change (visit, who, at, to_state) VALUES (?, ?, ?, 'new')",
  );
  return ({ visit, company, pool, case: consult, suits, gateNotes, code }, person, at) => {
    insert.run(visit, company, pool, consult, suits, gateNotes, at);
    note.run(visit, person, at);
    if (code !== '') keepCode.run(visit, code);
  };
}

function changer(database: Database): (change: Of<'change-visit'>, person: string, at: number) => void {
  const change = database.prepare(
    `UPDATE visit SET state = @to, technician = COALESCE(@technician, technician),
       accepted_at = CASE WHEN @to IN ('accepted', 'assigned') THEN COALESCE(accepted_at, @at) ELSE accepted_at END,
       ended_at = CASE WHEN @to IN ('closed', 'cancelled') THEN @at ELSE NULL END
     WHERE id = @visit AND company = @company AND state = @from`,
  );
  const note = database.prepare(
    'INSERT INTO visit_change (visit, who, at, from_state, to_state, technician) VALUES (?, ?, ?, ?, ?, ?)',
  );
  // A code is of no use to anybody once the visit has ended.
  const forgetCode = database.prepare('DELETE FROM gate_code WHERE visit = ?');
  return ({ visit, company, from, to, technician = null }, person, at) => {
    if (change.run({ visit, company, from, to, technician, at }).changes === 0) return;
    note.run(visit, person === '' ? null : person, at, from, to, technician);
    if (to === 'closed' || to === 'cancelled') forgetCode.run(visit);
  };
}

function learner(database: Database): (change: Omit<Of<'confirm-cause'>, 'do'>, at: number) => void {
  const insert = database.prepare(
    'INSERT INTO confirmed_cause (company, cleaner, filter, fault, at) VALUES (?, ?, ?, ?, ?)',
  );
  return ({ company, fault, equipment: { cleaner = null, filter = null } }, at) =>
    void insert.run(company, cleaner, filter, fault, at);
}

function closer(database: Database): (change: Of<'note-closing'>, person: string, at: number) => void {
  const insert = database.prepare(
    `INSERT INTO closing (visit, cause, first_suspect, repair, parts, minutes, readings, closed_by, at)
     VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?)`,
  );
  const learn = learner(database);
  const confirm = database.prepare('UPDATE consult SET fault = ? WHERE id = ?');
  return ({ visit, company, case: consult, closing, equipment }, person, at) => {
    const { cause, firstSuspect = null, isRepaired, parts, minutes, readings } = closing;
    const repair = isRepaired ? 'done' : '';
    const told = JSON.stringify(readings);
    insert.run(visit, cause, firstSuspect, repair, parts, minutes, told, person, at);
    if (cause === SOMETHING_ELSE) return;
    learn({ company, fault: cause, equipment }, at);
    if (consult !== undefined) confirm.run(cause, consult);
  };
}

/** Cancels what a company still had to do at the pools of an owner who no longer is with it. */
export function visitCanceller(database: Database): (company: string, owner: string, at: number) => void {
  const open = `state NOT IN ('closed', 'cancelled') AND company = @company
    AND pool IN (SELECT id FROM pool WHERE person = @owner)`;
  const note = database.prepare(
    `INSERT INTO visit_change (visit, who, at, from_state, to_state)
     SELECT id, @owner, @at, state, 'cancelled' FROM visit WHERE ${open}`,
  );
  const forgetCodes = database.prepare(
    `DELETE FROM gate_code WHERE visit IN (SELECT id FROM visit WHERE ${open})`,
  );
  const cancel = database.prepare(`UPDATE visit SET state = 'cancelled', ended_at = @at WHERE ${open}`);
  return (company, owner, at) => {
    note.run({ company, owner, at });
    forgetCodes.run({ company, owner });
    cancel.run({ company, owner, at });
  };
}

/** The statements that write changes of visits, prepared once a database. */
export function visitChangeWriter(
  database: Database,
): (change: VisitChange, person: string, at: number) => void {
  const open = opener(database);
  const change = changer(database);
  const close = closer(database);
  const learn = learner(database);
  const schedule = database.prepare(
    `UPDATE visit SET scheduled_for = @day, day_order = (SELECT COALESCE(MAX(other.day_order), 0) + 1 FROM visit AS other
       WHERE other.company = @company AND other.scheduled_for = @day AND other.technician IS visit.technician AND other.id <> @visit)
     WHERE id = @visit AND company = @company`,
  );
  return (one, person, at) => {
    switch (one.do) {
      case 'open-visit':
        open(one, person, at);
        return;
      case 'change-visit':
        change(one, person, at);
        return;
      case 'schedule-visit':
        schedule.run({ day: one.day, company: one.company, visit: one.visit });
        return;
      case 'note-closing':
        close(one, person, at);
        return;
      case 'confirm-cause':
        learn(one, at);
        return;
    }
  };
}
