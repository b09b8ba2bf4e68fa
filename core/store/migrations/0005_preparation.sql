-- Preparation: machines, the steps of a sample's way, what went into a composite, cleanings, crushing orders.

CREATE TABLE machine (
  id INTEGER PRIMARY KEY,
  struck INTEGER NOT NULL DEFAULT 0 CHECK (struck IN (0, 1)),
  name TEXT NOT NULL CHECK (name <> ''),
  kind TEXT,
  hold_up TEXT,
  retired_at TEXT,
  remarks TEXT
) STRICT;

CREATE TABLE step (
  id INTEGER PRIMARY KEY,
  struck INTEGER NOT NULL DEFAULT 0 CHECK (struck IN (0, 1)),
  sample_id INTEGER NOT NULL REFERENCES sample,
  portion_id INTEGER REFERENCES portion,
  kind TEXT NOT NULL,
  method TEXT,
  machine_id INTEGER REFERENCES machine,
  mass_in TEXT,
  mass_out TEXT,
  closed INTEGER NOT NULL DEFAULT 0 CHECK (closed IN (0, 1)),
  top_size TEXT,
  began_at TEXT,
  done_at TEXT NOT NULL,
  done_by_id INTEGER REFERENCES person,
  remarks TEXT
) STRICT;
CREATE INDEX step_sample ON step (sample_id);
CREATE INDEX step_machine ON step (machine_id);

ALTER TABLE portion ADD COLUMN step_id INTEGER REFERENCES step;

CREATE TABLE step_share (
  id INTEGER PRIMARY KEY,
  struck INTEGER NOT NULL DEFAULT 0 CHECK (struck IN (0, 1)),
  step_id INTEGER NOT NULL REFERENCES step,
  portion_id INTEGER NOT NULL REFERENCES portion,
  share TEXT
) STRICT;
CREATE INDEX step_share_step ON step_share (step_id);
CREATE INDEX step_share_portion ON step_share (portion_id);

CREATE TABLE cleaning (
  id INTEGER PRIMARY KEY,
  struck INTEGER NOT NULL DEFAULT 0 CHECK (struck IN (0, 1)),
  machine_id INTEGER NOT NULL REFERENCES machine,
  way TEXT NOT NULL,
  cleaned_at TEXT NOT NULL,
  cleaned_by_id INTEGER REFERENCES person,
  flush_mass TEXT,
  kept INTEGER NOT NULL DEFAULT 0 CHECK (kept IN (0, 1)),
  flush_grade TEXT,
  flush_grade_u TEXT,
  barren_grade TEXT,
  remarks TEXT
) STRICT;
CREATE INDEX cleaning_machine ON cleaning (machine_id);

CREATE TABLE crushing_plan (
  id INTEGER PRIMARY KEY,
  struck INTEGER NOT NULL DEFAULT 0 CHECK (struck IN (0, 1)),
  machine_id INTEGER NOT NULL REFERENCES machine,
  made_at TEXT NOT NULL,
  made_by_id INTEGER REFERENCES person,
  remarks TEXT
) STRICT;
CREATE INDEX crushing_plan_machine ON crushing_plan (machine_id);

CREATE TABLE plan_place (
  id INTEGER PRIMARY KEY,
  struck INTEGER NOT NULL DEFAULT 0 CHECK (struck IN (0, 1)),
  plan_id INTEGER NOT NULL REFERENCES crushing_plan,
  number INTEGER NOT NULL CHECK (number >= 1),
  sample_id INTEGER NOT NULL REFERENCES sample,
  flush_mass TEXT,
  flushes INTEGER CHECK (flushes >= 0),
  UNIQUE (plan_id, number)
) STRICT;
