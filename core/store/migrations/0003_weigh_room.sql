-- Trays, and who stands where on them; check weights and their weighings; the line a balance sent.

CREATE TABLE tray (
  id INTEGER PRIMARY KEY,
  struck INTEGER NOT NULL DEFAULT 0 CHECK (struck IN (0, 1)),
  name TEXT NOT NULL CHECK (name <> ''),
  kind TEXT NOT NULL,
  rows INTEGER NOT NULL CHECK (rows BETWEEN 1 AND 100),
  columns INTEGER NOT NULL CHECK (columns BETWEEN 1 AND 100),
  made_at TEXT,
  put_away_at TEXT,
  remarks TEXT
) STRICT;

CREATE TABLE tray_place (
  id INTEGER PRIMARY KEY,
  struck INTEGER NOT NULL DEFAULT 0 CHECK (struck IN (0, 1)),
  tray_id INTEGER NOT NULL REFERENCES tray,
  position INTEGER NOT NULL CHECK (position >= 1),
  charge_id INTEGER REFERENCES charge,
  bead_id INTEGER REFERENCES bead,
  control TEXT CHECK (control <> ''),
  CHECK ((charge_id IS NOT NULL) + (bead_id IS NOT NULL) + (control IS NOT NULL) = 1)
) STRICT;
CREATE UNIQUE INDEX tray_place_position ON tray_place (tray_id, position) WHERE struck = 0;
CREATE INDEX tray_place_charge ON tray_place (charge_id);
CREATE INDEX tray_place_bead ON tray_place (bead_id);

CREATE TABLE check_weight (
  id INTEGER PRIMARY KEY,
  struck INTEGER NOT NULL DEFAULT 0 CHECK (struck IN (0, 1)),
  name TEXT NOT NULL CHECK (name <> ''),
  nominal TEXT NOT NULL,
  allowed TEXT NOT NULL,
  remarks TEXT
) STRICT;

CREATE TABLE check_weighing (
  id INTEGER PRIMARY KEY,
  struck INTEGER NOT NULL DEFAULT 0 CHECK (struck IN (0, 1)),
  balance_id INTEGER NOT NULL REFERENCES balance,
  check_weight_id INTEGER NOT NULL REFERENCES check_weight,
  mass TEXT NOT NULL,
  nominal TEXT NOT NULL,
  allowed TEXT NOT NULL,
  weighed_at TEXT NOT NULL,
  weighed_by_id INTEGER REFERENCES person,
  raw TEXT,
  excluded TEXT,
  remarks TEXT
) STRICT;
CREATE INDEX check_weighing_balance ON check_weighing (balance_id);
CREATE INDEX check_weighing_weight ON check_weighing (check_weight_id);

ALTER TABLE weighing ADD COLUMN raw TEXT;
