-- The first schema. Every table of records has `struck`: nothing is deleted, an entry is struck out like a line in a
-- paper notebook. Figures are readings: JSON text with what was typed, the unit and the value (see docs/notebook-file.md).

CREATE TABLE setting (
  id INTEGER PRIMARY KEY,
  struck INTEGER NOT NULL DEFAULT 0 CHECK (struck IN (0, 1)),
  name TEXT NOT NULL UNIQUE,
  value TEXT
) STRICT;

CREATE TABLE person (
  id INTEGER PRIMARY KEY,
  struck INTEGER NOT NULL DEFAULT 0 CHECK (struck IN (0, 1)),
  initials TEXT NOT NULL UNIQUE CHECK (initials <> ''),
  name TEXT
) STRICT;

CREATE TABLE client (
  id INTEGER PRIMARY KEY,
  struck INTEGER NOT NULL DEFAULT 0 CHECK (struck IN (0, 1)),
  name TEXT NOT NULL CHECK (name <> ''),
  contact TEXT,
  address TEXT,
  remarks TEXT
) STRICT;
CREATE INDEX client_name ON client (name);

CREATE TABLE balance (
  id INTEGER PRIMARY KEY,
  struck INTEGER NOT NULL DEFAULT 0 CHECK (struck IN (0, 1)),
  name TEXT NOT NULL CHECK (name <> ''),
  step TEXT,
  capacity TEXT,
  repeatability TEXT,
  remarks TEXT
) STRICT;

CREATE TABLE consignment (
  id INTEGER PRIMARY KEY,
  struck INTEGER NOT NULL DEFAULT 0 CHECK (struck IN (0, 1)),
  number TEXT NOT NULL UNIQUE CHECK (number <> ''),
  client_id INTEGER NOT NULL REFERENCES client,
  arrived TEXT NOT NULL,
  carrier TEXT,
  pieces_declared INTEGER CHECK (pieces_declared >= 0),
  pieces_found INTEGER CHECK (pieces_found >= 0),
  received_by_id INTEGER REFERENCES person,
  remarks TEXT
) STRICT;
CREATE INDEX consignment_client ON consignment (client_id);

CREATE TABLE sample (
  id INTEGER PRIMARY KEY,
  struck INTEGER NOT NULL DEFAULT 0 CHECK (struck IN (0, 1)),
  number TEXT NOT NULL UNIQUE CHECK (number <> ''),
  consignment_id INTEGER NOT NULL REFERENCES consignment,
  mark TEXT NOT NULL,
  kind TEXT,
  place TEXT,
  expected TEXT,
  condition TEXT,
  mass_declared TEXT,
  mass_received TEXT,
  moisture TEXT,
  swept_from_id INTEGER REFERENCES sample,
  remarks TEXT
) STRICT;
CREATE INDEX sample_consignment ON sample (consignment_id);
CREATE INDEX sample_mark ON sample (mark);

CREATE TABLE portion (
  id INTEGER PRIMARY KEY,
  struck INTEGER NOT NULL DEFAULT 0 CHECK (struck IN (0, 1)),
  sample_id INTEGER NOT NULL REFERENCES sample,
  parent_id INTEGER REFERENCES portion,
  number INTEGER NOT NULL CHECK (number >= 1),
  purpose TEXT NOT NULL,
  mass TEXT,
  cut_at TEXT,
  cut_by_id INTEGER REFERENCES person,
  remarks TEXT,
  UNIQUE (sample_id, number)
) STRICT;
CREATE INDEX portion_parent ON portion (parent_id);

CREATE TABLE pan_test (
  id INTEGER PRIMARY KEY,
  struck INTEGER NOT NULL DEFAULT 0 CHECK (struck IN (0, 1)),
  portion_id INTEGER NOT NULL REFERENCES portion,
  panned_at TEXT,
  panned_by_id INTEGER REFERENCES person,
  grind TEXT,
  largest_colour TEXT,
  colours TEXT,
  black_sand TEXT,
  sulphides TEXT,
  free_gold TEXT,
  spoiled TEXT,
  excluded TEXT,
  remarks TEXT
) STRICT;
CREATE INDEX pan_test_portion ON pan_test (portion_id);

CREATE TABLE charge (
  id INTEGER PRIMARY KEY,
  struck INTEGER NOT NULL DEFAULT 0 CHECK (struck IN (0, 1)),
  portion_id INTEGER NOT NULL REFERENCES portion,
  fired_at TEXT,
  fired_by_id INTEGER REFERENCES person,
  repeat_of_id INTEGER REFERENCES charge,
  collector TEXT,
  blank TEXT,
  button TEXT,
  slag_metal TEXT,
  cupel_metal TEXT,
  gold_loss TEXT,
  silver_loss TEXT,
  slag_look TEXT,
  spoiled TEXT,
  excluded TEXT,
  remarks TEXT
) STRICT;
CREATE INDEX charge_portion ON charge (portion_id);

CREATE TABLE bead (
  id INTEGER PRIMARY KEY,
  struck INTEGER NOT NULL DEFAULT 0 CHECK (struck IN (0, 1)),
  pan_test_id INTEGER REFERENCES pan_test,
  charge_id INTEGER REFERENCES charge,
  none_seen INTEGER NOT NULL DEFAULT 0 CHECK (none_seen IN (0, 1)),
  fineness_method TEXT,
  fineness TEXT,
  fineness_u TEXT,
  look TEXT,
  remarks TEXT,
  CHECK ((pan_test_id IS NULL) <> (charge_id IS NULL))
) STRICT;
CREATE INDEX bead_pan_test ON bead (pan_test_id);
CREATE INDEX bead_charge ON bead (charge_id);

CREATE TABLE weighing (
  id INTEGER PRIMARY KEY,
  struck INTEGER NOT NULL DEFAULT 0 CHECK (struck IN (0, 1)),
  bead_id INTEGER NOT NULL REFERENCES bead,
  what TEXT NOT NULL,
  number INTEGER NOT NULL CHECK (number >= 1),
  mass TEXT NOT NULL,
  balance_id INTEGER REFERENCES balance,
  weighed_at TEXT,
  weighed_by_id INTEGER REFERENCES person,
  excluded TEXT,
  UNIQUE (bead_id, what, number)
) STRICT;

CREATE TABLE answer (
  id INTEGER PRIMARY KEY,
  struck INTEGER NOT NULL DEFAULT 0 CHECK (struck IN (0, 1)),
  rule TEXT NOT NULL,
  scope TEXT NOT NULL,
  evidence TEXT NOT NULL,
  explanation TEXT NOT NULL
) STRICT;
CREATE INDEX answer_scope ON answer (scope, rule);

-- Who changed what, when and why; each row carries the hash of its own bytes and of the row before it.
-- field 0: the record was made, `new` holds its fields by code as JSON.
CREATE TABLE history (
  id INTEGER PRIMARY KEY,
  change_set INTEGER NOT NULL,
  takes_back INTEGER,
  gesture TEXT NOT NULL,
  entity INTEGER NOT NULL,
  record INTEGER NOT NULL,
  field INTEGER NOT NULL,
  old ANY,
  new ANY,
  who TEXT NOT NULL,
  utc_ms INTEGER NOT NULL,
  offset_minutes INTEGER NOT NULL,
  why TEXT,
  hash BLOB NOT NULL CHECK (length(hash) = 32)
) STRICT;
CREATE INDEX history_record ON history (entity, record, id);
CREATE INDEX history_change_set ON history (change_set);

CREATE TRIGGER history_is_not_rewritten BEFORE UPDATE ON history
BEGIN SELECT RAISE(ABORT, 'history is append-only'); END;
CREATE TRIGGER history_is_not_erased BEFORE DELETE ON history
BEGIN SELECT RAISE(ABORT, 'history is append-only'); END;
