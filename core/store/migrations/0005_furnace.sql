-- The furnace: lots of flux, litharge and lead, pots, recipes, tests of reducing power, designs of charges, runs with their
-- temperatures, and proofs. What was weighed into a charge, and what was seen at it, stands with the charge.

CREATE TABLE lot (
  id INTEGER PRIMARY KEY,
  struck INTEGER NOT NULL DEFAULT 0 CHECK (struck IN (0, 1)),
  name TEXT NOT NULL CHECK (name <> ''),
  kind TEXT NOT NULL,
  made_at TEXT,
  made_by_id INTEGER REFERENCES person,
  mixture TEXT,
  silver TEXT,
  used_up_at TEXT,
  remarks TEXT
) STRICT;

CREATE TABLE pot (
  id INTEGER PRIMARY KEY,
  struck INTEGER NOT NULL DEFAULT 0 CHECK (struck IN (0, 1)),
  name TEXT NOT NULL CHECK (name <> ''),
  millilitres INTEGER CHECK (millilitres > 0),
  broken_at TEXT,
  remarks TEXT
) STRICT;

CREATE TABLE recipe (
  id INTEGER PRIMARY KEY,
  struck INTEGER NOT NULL DEFAULT 0 CHECK (struck IN (0, 1)),
  name TEXT NOT NULL CHECK (name <> ''),
  ore TEXT,
  litharge TEXT,
  soda_ash TEXT,
  borax TEXT,
  silica TEXT,
  flour TEXT,
  nitre TEXT,
  flux_lot_id INTEGER REFERENCES lot,
  flux TEXT,
  remarks TEXT
) STRICT;

CREATE TABLE reducing_test (
  id INTEGER PRIMARY KEY,
  struck INTEGER NOT NULL DEFAULT 0 CHECK (struck IN (0, 1)),
  sample_id INTEGER NOT NULL REFERENCES sample,
  ore TEXT,
  litharge TEXT,
  soda_ash TEXT,
  button TEXT,
  done_at TEXT,
  done_by_id INTEGER REFERENCES person,
  remarks TEXT
) STRICT;
CREATE INDEX reducing_test_sample ON reducing_test (sample_id);

CREATE TABLE charge_design (
  id INTEGER PRIMARY KEY,
  struck INTEGER NOT NULL DEFAULT 0 CHECK (struck IN (0, 1)),
  portion_id INTEGER NOT NULL REFERENCES portion,
  ore_kind TEXT,
  silica_share TEXT,
  sulphides TEXT,
  button_target TEXT,
  reducing_test_id INTEGER REFERENCES reducing_test,
  cupel TEXT,
  remarks TEXT
) STRICT;
CREATE INDEX charge_design_portion ON charge_design (portion_id);

CREATE TABLE furnace_run (
  id INTEGER PRIMARY KEY,
  struck INTEGER NOT NULL DEFAULT 0 CHECK (struck IN (0, 1)),
  name TEXT NOT NULL CHECK (name <> ''),
  kind TEXT,
  began_at TEXT,
  ended_at TEXT,
  run_by_id INTEGER REFERENCES person,
  set_c INTEGER CHECK (set_c BETWEEN 0 AND 2000),
  places INTEGER CHECK (places > 0),
  remarks TEXT
) STRICT;

CREATE TABLE run_reading (
  id INTEGER PRIMARY KEY,
  struck INTEGER NOT NULL DEFAULT 0 CHECK (struck IN (0, 1)),
  run_id INTEGER NOT NULL REFERENCES furnace_run,
  read_at TEXT NOT NULL,
  set_c INTEGER CHECK (set_c BETWEEN 0 AND 2000),
  read_c INTEGER CHECK (read_c BETWEEN 0 AND 2000),
  remarks TEXT
) STRICT;
CREATE INDEX run_reading_run ON run_reading (run_id);

CREATE TABLE proof (
  id INTEGER PRIMARY KEY,
  struck INTEGER NOT NULL DEFAULT 0 CHECK (struck IN (0, 1)),
  run_id INTEGER NOT NULL REFERENCES furnace_run,
  gold_in TEXT,
  silver_in TEXT,
  lead TEXT,
  bead TEXT,
  gold_out TEXT,
  remarks TEXT
) STRICT;
CREATE INDEX proof_run ON proof (run_id);

ALTER TABLE charge ADD COLUMN recipe_id INTEGER REFERENCES recipe;
ALTER TABLE charge ADD COLUMN litharge TEXT;
ALTER TABLE charge ADD COLUMN soda_ash TEXT;
ALTER TABLE charge ADD COLUMN borax TEXT;
ALTER TABLE charge ADD COLUMN silica TEXT;
ALTER TABLE charge ADD COLUMN flour TEXT;
ALTER TABLE charge ADD COLUMN nitre TEXT;
ALTER TABLE charge ADD COLUMN litharge_lot_id INTEGER REFERENCES lot;
ALTER TABLE charge ADD COLUMN flux_lot_id INTEGER REFERENCES lot;
ALTER TABLE charge ADD COLUMN flux TEXT;
ALTER TABLE charge ADD COLUMN flour_and_nitre TEXT;
ALTER TABLE charge ADD COLUMN pot_id INTEGER REFERENCES pot;
ALTER TABLE charge ADD COLUMN fusion_run_id INTEGER REFERENCES furnace_run;
ALTER TABLE charge ADD COLUMN fusion_signs TEXT;
ALTER TABLE charge ADD COLUMN lead_added TEXT;
ALTER TABLE charge ADD COLUMN lead_lot_id INTEGER REFERENCES lot;
ALTER TABLE charge ADD COLUMN cupel_kind TEXT;
ALTER TABLE charge ADD COLUMN cupel TEXT;
ALTER TABLE charge ADD COLUMN cupellation_run_id INTEGER REFERENCES furnace_run;
ALTER TABLE charge ADD COLUMN cupellation_signs TEXT;
ALTER TABLE bead ADD COLUMN inquart TEXT;
ALTER TABLE bead ADD COLUMN residual_silver TEXT;
ALTER TABLE bead ADD COLUMN parting_look TEXT;
CREATE INDEX charge_pot ON charge (pot_id);
CREATE INDEX charge_fusion_run ON charge (fusion_run_id);
CREATE INDEX charge_cupellation_run ON charge (cupellation_run_id);
