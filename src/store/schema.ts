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
];
