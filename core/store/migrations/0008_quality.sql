-- Quality: what the lab keeps to assay among its samples, what a charge or pan test stands for, what was decided of a run.

CREATE TABLE control_material (
  id INTEGER PRIMARY KEY,
  struck INTEGER NOT NULL DEFAULT 0 CHECK (struck IN (0, 1)),
  name TEXT NOT NULL CHECK (name <> ''),
  kind TEXT NOT NULL,
  origin TEXT,
  stock_id INTEGER NOT NULL REFERENCES sample,
  gold TEXT,
  gold_u TEXT,
  silver TEXT,
  silver_u TEXT,
  u_meaning TEXT,
  gold_sd TEXT,
  certificate TEXT,
  used_up_at TEXT,
  remarks TEXT
) STRICT;
CREATE INDEX control_material_stock ON control_material (stock_id);

CREATE TABLE run_decision (
  id INTEGER PRIMARY KEY,
  struck INTEGER NOT NULL DEFAULT 0 CHECK (struck IN (0, 1)),
  run_id INTEGER NOT NULL REFERENCES furnace_run,
  decision TEXT NOT NULL,
  reason TEXT,
  evidence TEXT,
  decided_at TEXT NOT NULL,
  decided_by_id INTEGER REFERENCES person
) STRICT;
CREATE INDEX run_decision_run ON run_decision (run_id);

ALTER TABLE charge ADD COLUMN role TEXT;
ALTER TABLE charge ADD COLUMN duplicate_of_id INTEGER REFERENCES charge;
ALTER TABLE charge ADD COLUMN cleaning_id INTEGER REFERENCES cleaning;
ALTER TABLE pan_test ADD COLUMN role TEXT;
ALTER TABLE pan_test ADD COLUMN duplicate_of_id INTEGER REFERENCES pan_test;
CREATE INDEX charge_role ON charge (role, id) WHERE role IS NOT NULL;
CREATE INDEX pan_test_role ON pan_test (role, id) WHERE role IS NOT NULL;
CREATE INDEX charge_duplicate_of ON charge (duplicate_of_id) WHERE duplicate_of_id IS NOT NULL;
CREATE INDEX pan_test_duplicate_of ON pan_test (duplicate_of_id) WHERE duplicate_of_id IS NOT NULL;
