/** The database's shape, one step a version. A step, once released, is never changed: a later one mends it. */
export const MIGRATIONS: readonly string[] = [
  `
  CREATE TABLE person (
    id TEXT PRIMARY KEY,
    locale TEXT,
    role TEXT,
    first_heard_at INTEGER NOT NULL
  );
  CREATE TABLE conversation (
    id TEXT PRIMARY KEY,
    person TEXT NOT NULL REFERENCES person(id) ON DELETE CASCADE,
    state TEXT NOT NULL,
    version INTEGER NOT NULL
  );
  CREATE TABLE inbox (
    id INTEGER PRIMARY KEY,
    channel TEXT NOT NULL,
    update_key TEXT NOT NULL,
    conversation TEXT NOT NULL,
    person TEXT NOT NULL,
    body TEXT NOT NULL,
    received_at INTEGER NOT NULL,
    handled_at INTEGER,
    UNIQUE (channel, update_key)
  );
  CREATE INDEX inbox_open ON inbox (id) WHERE handled_at IS NULL;
  CREATE TABLE outbox (
    id INTEGER PRIMARY KEY,
    conversation TEXT NOT NULL,
    message TEXT NOT NULL,
    written_at INTEGER NOT NULL,
    delivered_at INTEGER
  );
  CREATE INDEX outbox_open ON outbox (conversation, id) WHERE delivered_at IS NULL;
  CREATE TABLE pool (
    id TEXT PRIMARY KEY,
    person TEXT NOT NULL REFERENCES person(id) ON DELETE CASCADE,
    name TEXT NOT NULL,
    created_at INTEGER NOT NULL
  );
  CREATE INDEX pool_of_person ON pool (person);
  CREATE TABLE equipment (
    id INTEGER PRIMARY KEY,
    pool TEXT NOT NULL REFERENCES pool(id) ON DELETE CASCADE,
    key TEXT NOT NULL,
    value TEXT,
    at INTEGER NOT NULL
  );
  CREATE INDEX equipment_of_pool ON equipment (pool);
  CREATE TABLE missing_instrument (
    pool TEXT NOT NULL REFERENCES pool(id) ON DELETE CASCADE,
    instrument TEXT NOT NULL,
    at INTEGER NOT NULL,
    PRIMARY KEY (pool, instrument)
  );
  CREATE TABLE reading (
    id INTEGER PRIMARY KEY,
    pool TEXT NOT NULL REFERENCES pool(id) ON DELETE CASCADE,
    quantity TEXT NOT NULL,
    value REAL NOT NULL,
    said TEXT NOT NULL,
    clean INTEGER NOT NULL,
    at INTEGER NOT NULL
  );
  CREATE INDEX reading_of_pool ON reading (pool, at);
  CREATE TABLE consult (
    id TEXT PRIMARY KEY,
    pool TEXT NOT NULL REFERENCES pool(id) ON DELETE CASCADE,
    complaint TEXT NOT NULL,
    role TEXT NOT NULL,
    opened_at INTEGER NOT NULL,
    closed_at INTEGER,
    outcome TEXT,
    fault TEXT
  );
  CREATE INDEX consult_of_pool ON consult (pool, opened_at);
  CREATE TABLE consult_event (
    id INTEGER PRIMARY KEY,
    consult TEXT NOT NULL REFERENCES consult(id) ON DELETE CASCADE,
    event TEXT NOT NULL,
    at INTEGER NOT NULL,
    withdrawn_at INTEGER
  );
  CREATE INDEX consult_event_of_consult ON consult_event (consult, id);
  `,
  `
  ALTER TABLE person ADD COLUMN unreachable_at INTEGER;
  ALTER TABLE person ADD COLUMN came_by TEXT;
  ALTER TABLE conversation ADD COLUMN asked INTEGER NOT NULL DEFAULT 0;
  ALTER TABLE inbox ADD COLUMN hints TEXT;
  ALTER TABLE inbox ADD COLUMN due_at INTEGER NOT NULL DEFAULT 0;
  CREATE INDEX inbox_due ON inbox (conversation, due_at) WHERE handled_at IS NULL;
  ALTER TABLE outbox ADD COLUMN locale TEXT;
  ALTER TABLE outbox ADD COLUMN version INTEGER NOT NULL DEFAULT 0;
  ALTER TABLE outbox ADD COLUMN deed TEXT;
  ALTER TABLE outbox ADD COLUMN reply_to INTEGER;
  ALTER TABLE outbox ADD COLUMN parts_sent INTEGER NOT NULL DEFAULT 0;
  ALTER TABLE outbox ADD COLUMN sent_as INTEGER;
  ALTER TABLE outbox ADD COLUMN keyboard INTEGER NOT NULL DEFAULT 0;
  ALTER TABLE outbox ADD COLUMN chosen INTEGER;
  ALTER TABLE outbox ADD COLUMN failure TEXT;
  CREATE INDEX outbox_keyboard ON outbox (conversation, id) WHERE keyboard = 1;
  CREATE TABLE photo (
    id INTEGER PRIMARY KEY,
    person TEXT NOT NULL REFERENCES person(id) ON DELETE CASCADE,
    conversation TEXT NOT NULL,
    consult TEXT REFERENCES consult(id) ON DELETE CASCADE,
    step TEXT,
    file TEXT NOT NULL,
    at INTEGER NOT NULL
  );
  CREATE INDEX photo_of_consult ON photo (consult, id);
  `,
  `
  ALTER TABLE person ADD COLUMN spoken INTEGER NOT NULL DEFAULT 0;
  `,
  `
  CREATE TABLE pool_next (
    id TEXT PRIMARY KEY,
    person TEXT REFERENCES person(id) ON DELETE CASCADE,
    name TEXT NOT NULL,
    created_at INTEGER NOT NULL
  );
  INSERT INTO pool_next (id, person, name, created_at) SELECT id, person, name, created_at FROM pool ORDER BY rowid;
  DROP TABLE pool;
  ALTER TABLE pool_next RENAME TO pool;
  CREATE INDEX pool_of_person ON pool (person);
  ALTER TABLE person ADD COLUMN time_zone TEXT;
  ALTER TABLE person ADD COLUMN heard_at INTEGER NOT NULL DEFAULT 0;
  UPDATE person SET heard_at = COALESCE(
    (SELECT MAX(json_extract(state, '$.heardAt')) FROM conversation WHERE conversation.person = person.id),
    first_heard_at);
  ALTER TABLE outbox ADD COLUMN stands INTEGER NOT NULL DEFAULT 0;
  ALTER TABLE outbox ADD COLUMN about TEXT;
  CREATE INDEX outbox_about ON outbox (about) WHERE about IS NOT NULL;
  CREATE TABLE company (
    id TEXT PRIMARY KEY,
    name TEXT NOT NULL,
    locale TEXT NOT NULL DEFAULT 'en',
    phone TEXT NOT NULL DEFAULT '',
    hours TEXT NOT NULL DEFAULT '',
    hand_off_minutes INTEGER NOT NULL DEFAULT 120,
    accept_within_minutes INTEGER NOT NULL DEFAULT 120,
    time_zone TEXT NOT NULL DEFAULT 'UTC',
    staff_chat TEXT,
    retention_months INTEGER NOT NULL DEFAULT 24,
    created_at INTEGER NOT NULL
  );
  CREATE TABLE membership (
    person TEXT NOT NULL REFERENCES person(id) ON DELETE CASCADE,
    company TEXT NOT NULL REFERENCES company(id) ON DELETE CASCADE,
    role TEXT NOT NULL,
    name TEXT NOT NULL DEFAULT '',
    since INTEGER NOT NULL,
    left_at INTEGER,
    PRIMARY KEY (person, company, role)
  );
  CREATE INDEX membership_of_company ON membership (company, role) WHERE left_at IS NULL;
  CREATE TABLE company_pool (
    pool TEXT PRIMARY KEY REFERENCES pool(id) ON DELETE CASCADE,
    company TEXT NOT NULL REFERENCES company(id) ON DELETE CASCADE,
    reference TEXT NOT NULL,
    address TEXT NOT NULL DEFAULT '',
    locale TEXT,
    since INTEGER NOT NULL,
    touched_at INTEGER NOT NULL,
    imported TEXT NOT NULL DEFAULT '{}',
    UNIQUE (company, reference)
  );
  CREATE TABLE invitation (
    id TEXT PRIMARY KEY,
    hash TEXT NOT NULL UNIQUE,
    company TEXT NOT NULL REFERENCES company(id) ON DELETE CASCADE,
    role TEXT NOT NULL,
    pool TEXT REFERENCES pool(id) ON DELETE CASCADE,
    made_by TEXT REFERENCES person(id) ON DELETE SET NULL,
    made_at INTEGER NOT NULL,
    expires_at INTEGER NOT NULL,
    used_at INTEGER,
    revoked_at INTEGER
  );
  CREATE INDEX invitation_open ON invitation (company, made_at) WHERE used_at IS NULL AND revoked_at IS NULL;
  CREATE TABLE link_tries (
    person TEXT PRIMARY KEY REFERENCES person(id) ON DELETE CASCADE,
    failed INTEGER NOT NULL,
    last_at INTEGER NOT NULL
  );
  CREATE TABLE upload (
    id TEXT PRIMARY KEY,
    person TEXT NOT NULL REFERENCES person(id) ON DELETE CASCADE,
    name TEXT NOT NULL,
    content BLOB NOT NULL,
    at INTEGER NOT NULL
  );
  CREATE TABLE visit (
    id TEXT PRIMARY KEY,
    company TEXT NOT NULL REFERENCES company(id) ON DELETE CASCADE,
    pool TEXT NOT NULL REFERENCES pool(id) ON DELETE CASCADE,
    consult TEXT REFERENCES consult(id) ON DELETE SET NULL,
    state TEXT NOT NULL,
    technician TEXT REFERENCES person(id) ON DELETE SET NULL,
    suits TEXT NOT NULL DEFAULT '',
    gate_notes TEXT NOT NULL DEFAULT '',
    scheduled_for TEXT,
    day_order INTEGER,
    opened_at INTEGER NOT NULL,
    accepted_at INTEGER,
    ended_at INTEGER
  );
  CREATE INDEX visit_of_company ON visit (company, state, opened_at);
  CREATE INDEX visit_of_pool ON visit (pool, opened_at);
  CREATE INDEX visit_of_consult ON visit (consult);
  CREATE INDEX visit_of_technician ON visit (technician, scheduled_for);
  CREATE TABLE gate_code (
    visit TEXT PRIMARY KEY REFERENCES visit(id) ON DELETE CASCADE,
    code TEXT NOT NULL
  );
  CREATE TABLE visit_change (
    id INTEGER PRIMARY KEY,
    visit TEXT NOT NULL REFERENCES visit(id) ON DELETE CASCADE,
    who TEXT REFERENCES person(id) ON DELETE SET NULL,
    at INTEGER NOT NULL,
    from_state TEXT,
    to_state TEXT NOT NULL,
    technician TEXT REFERENCES person(id) ON DELETE SET NULL
  );
  CREATE INDEX visit_change_of_visit ON visit_change (visit, id);
  CREATE TABLE closing (
    visit TEXT PRIMARY KEY REFERENCES visit(id) ON DELETE CASCADE,
    cause TEXT NOT NULL,
    first_suspect TEXT,
    repair TEXT NOT NULL DEFAULT '',
    parts TEXT NOT NULL DEFAULT '',
    minutes INTEGER,
    readings TEXT NOT NULL DEFAULT '[]',
    closed_by TEXT REFERENCES person(id) ON DELETE SET NULL,
    at INTEGER NOT NULL
  );
  CREATE TABLE job (
    id INTEGER PRIMARY KEY,
    kind TEXT NOT NULL,
    about TEXT NOT NULL,
    person TEXT REFERENCES person(id) ON DELETE CASCADE,
    company TEXT REFERENCES company(id) ON DELETE CASCADE,
    due_at INTEGER NOT NULL,
    run_at INTEGER NOT NULL,
    done_at INTEGER,
    UNIQUE (kind, about, due_at)
  );
  CREATE INDEX job_open ON job (run_at) WHERE done_at IS NULL;
  CREATE TABLE reminder_off (
    person TEXT NOT NULL REFERENCES person(id) ON DELETE CASCADE,
    kind TEXT NOT NULL,
    pool TEXT NOT NULL DEFAULT '',
    at INTEGER NOT NULL,
    PRIMARY KEY (person, kind, pool)
  );
  CREATE TABLE confirmed_cause (
    id INTEGER PRIMARY KEY,
    company TEXT NOT NULL REFERENCES company(id) ON DELETE CASCADE,
    cleaner TEXT,
    filter TEXT,
    fault TEXT NOT NULL,
    at INTEGER NOT NULL
  );
  CREATE INDEX confirmed_cause_of_company ON confirmed_cause (company, cleaner, filter, at);
  `,
];
