-- The pan: what the panner saw by size, pannings of one test, how its gold became a bead; and metallics.

ALTER TABLE pan_test ADD COLUMN colours_coarse INTEGER CHECK (colours_coarse >= 0);
ALTER TABLE pan_test ADD COLUMN colours_middle INTEGER CHECK (colours_middle >= 0);
ALTER TABLE pan_test ADD COLUMN colours_fine INTEGER CHECK (colours_fine >= 0);
ALTER TABLE pan_test ADD COLUMN magnetite TEXT;
ALTER TABLE pan_test ADD COLUMN bead_by TEXT;
ALTER TABLE pan_test ADD COLUMN mercury TEXT;
ALTER TABLE pan_test ADD COLUMN grind_from_id INTEGER REFERENCES sieve_analysis;

CREATE TABLE panning (
  id INTEGER PRIMARY KEY,
  struck INTEGER NOT NULL DEFAULT 0 CHECK (struck IN (0, 1)),
  pan_test_id INTEGER NOT NULL REFERENCES pan_test,
  number INTEGER NOT NULL CHECK (number >= 1),
  kind TEXT NOT NULL,
  panned_at TEXT,
  panned_by_id INTEGER REFERENCES person,
  concentrate TEXT,
  remarks TEXT,
  UNIQUE (pan_test_id, number)
) STRICT;

CREATE TABLE metallics (
  id INTEGER PRIMARY KEY,
  struck INTEGER NOT NULL DEFAULT 0 CHECK (struck IN (0, 1)),
  portion_id INTEGER NOT NULL REFERENCES portion,
  coarse_id INTEGER NOT NULL REFERENCES portion,
  fine_id INTEGER NOT NULL REFERENCES portion,
  screen TEXT,
  screened_at TEXT,
  screened_by_id INTEGER REFERENCES person,
  remarks TEXT
) STRICT;
CREATE INDEX metallics_portion ON metallics (portion_id);
