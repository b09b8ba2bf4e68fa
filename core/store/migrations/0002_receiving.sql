-- Receiving and custody: pieces with their seals, hand-overs, storage places, the client's own metal, figures told.

ALTER TABLE consignment ADD COLUMN seals TEXT;
ALTER TABLE consignment ADD COLUMN pieces_condition TEXT;
ALTER TABLE consignment ADD COLUMN whole_form INTEGER NOT NULL DEFAULT 0 CHECK (whole_form IN (0, 1));

ALTER TABLE sample ADD COLUMN gross TEXT;
ALTER TABLE sample ADD COLUMN tare TEXT;
ALTER TABLE sample ADD COLUMN moisture_wanted INTEGER NOT NULL DEFAULT 0 CHECK (moisture_wanted IN (0, 1));
ALTER TABLE sample ADD COLUMN tests_wanted TEXT;
ALTER TABLE sample ADD COLUMN due TEXT;
ALTER TABLE sample ADD COLUMN price_agreed TEXT;
ALTER TABLE sample ADD COLUMN price_paid TEXT;
ALTER TABLE sample ADD COLUMN treatment TEXT;
ALTER TABLE sample ADD COLUMN treatment_reason TEXT;
ALTER TABLE sample ADD COLUMN retain_until TEXT;
ALTER TABLE sample ADD COLUMN disposal TEXT;
ALTER TABLE sample ADD COLUMN disposed_at TEXT;
ALTER TABLE sample ADD COLUMN taken_by TEXT;
ALTER TABLE sample ADD COLUMN taken_when TEXT;

CREATE TABLE piece (
  id INTEGER PRIMARY KEY,
  struck INTEGER NOT NULL DEFAULT 0 CHECK (struck IN (0, 1)),
  consignment_id INTEGER NOT NULL REFERENCES consignment,
  number INTEGER NOT NULL CHECK (number >= 1),
  condition TEXT,
  seal_declared TEXT,
  seal TEXT,
  seal_state TEXT,
  remarks TEXT,
  UNIQUE (consignment_id, number)
) STRICT;

CREATE TABLE place (
  id INTEGER PRIMARY KEY,
  struck INTEGER NOT NULL DEFAULT 0 CHECK (struck IN (0, 1)),
  name TEXT NOT NULL UNIQUE CHECK (name <> ''),
  remarks TEXT
) STRICT;

CREATE TABLE hand_over (
  id INTEGER PRIMARY KEY,
  struck INTEGER NOT NULL DEFAULT 0 CHECK (struck IN (0, 1)),
  sample_id INTEGER REFERENCES sample,
  consignment_id INTEGER REFERENCES consignment,
  from_holder TEXT NOT NULL CHECK (from_holder <> ''),
  to_holder TEXT NOT NULL CHECK (to_holder <> ''),
  place_id INTEGER REFERENCES place,
  handed_at TEXT NOT NULL,
  reason TEXT,
  seal TEXT,
  seal_state TEXT,
  condition TEXT,
  written_by_id INTEGER REFERENCES person,
  remarks TEXT,
  CHECK ((sample_id IS NULL) <> (consignment_id IS NULL))
) STRICT;
CREATE INDEX hand_over_sample ON hand_over (sample_id);
CREATE INDEX hand_over_consignment ON hand_over (consignment_id);

CREATE TABLE own_metal (
  id INTEGER PRIMARY KEY,
  struck INTEGER NOT NULL DEFAULT 0 CHECK (struck IN (0, 1)),
  sample_id INTEGER NOT NULL REFERENCES sample,
  what TEXT NOT NULL,
  fate TEXT NOT NULL,
  mass TEXT,
  happened_at TEXT NOT NULL,
  to_whom TEXT,
  written_by_id INTEGER REFERENCES person,
  remarks TEXT
) STRICT;
CREATE INDEX own_metal_sample ON own_metal (sample_id);

CREATE TABLE told_figure (
  id INTEGER PRIMARY KEY,
  struck INTEGER NOT NULL DEFAULT 0 CHECK (struck IN (0, 1)),
  sample_id INTEGER NOT NULL REFERENCES sample,
  what TEXT NOT NULL,
  said TEXT NOT NULL CHECK (said <> ''),
  to_whom TEXT NOT NULL CHECK (to_whom <> ''),
  told_at TEXT NOT NULL,
  told_by_id INTEGER REFERENCES person,
  remarks TEXT
) STRICT;
CREATE INDEX told_figure_sample ON told_figure (sample_id);
