-- The second schema: what arrives and who has it, clients' lists and the words to search by, photographs, preparation, sieves.

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

-- What is looked for: one row a sample (its id) and one a consignment (2^40 and its id), with the words that stand about
-- it elsewhere. Derived: core/history writes it with every change, a check compares it with the records, a restore fills
-- it, a dump leaves it out.
CREATE VIRTUAL TABLE search USING fts5(
  number, mark, client, consignment, place, remarks,
  tokenize = 'unicode61 remove_diacritics 2', prefix = '1 2 3'
);
INSERT INTO search (rowid, number, mark, client, consignment, place, remarks)
SELECT s.id, s.number, s.mark, client.name, c.number, s.place, s.remarks
FROM sample s JOIN consignment c ON c.id = s.consignment_id JOIN client ON client.id = c.client_id
WHERE s.struck = 0;
INSERT INTO search (rowid, number, mark, client, consignment, place, remarks)
SELECT 1099511627776 + c.id, c.number, NULL, client.name, NULL, c.carrier, c.remarks
FROM consignment c JOIN client ON client.id = c.client_id
WHERE c.struck = 0;

-- Numbers are looked for by how they begin, whatever the case.
CREATE INDEX sample_number_begins ON sample (number COLLATE NOCASE);
CREATE INDEX consignment_number_begins ON consignment (number COLLATE NOCASE);

-- Which heading of a client's lists stands for which field, so that the next list need not be matched again.
CREATE TABLE column_match (
  id INTEGER PRIMARY KEY,
  struck INTEGER NOT NULL DEFAULT 0 CHECK (struck IN (0, 1)),
  client_id INTEGER NOT NULL REFERENCES client,
  heading TEXT NOT NULL CHECK (heading <> ''),
  field TEXT NOT NULL,
  unit TEXT,
  UNIQUE (client_id, heading)
) STRICT;

-- Photographs. The bytes stand once under their hash, apart from the records: the history holds the hash, not the bytes.

CREATE TABLE content (
  hash TEXT NOT NULL PRIMARY KEY CHECK (length(hash) = 64),
  bytes BLOB NOT NULL CHECK (length(bytes) > 0)
) STRICT;
CREATE TRIGGER content_is_not_rewritten BEFORE UPDATE ON content
BEGIN SELECT RAISE(ABORT, 'content is append-only'); END;
CREATE TRIGGER content_is_not_erased BEFORE DELETE ON content
BEGIN SELECT RAISE(ABORT, 'content is append-only'); END;

CREATE TABLE attachment (
  id INTEGER PRIMARY KEY,
  struck INTEGER NOT NULL DEFAULT 0 CHECK (struck IN (0, 1)),
  sample_id INTEGER REFERENCES sample,
  consignment_id INTEGER REFERENCES consignment,
  kind TEXT,
  caption TEXT,
  taken_at TEXT,
  original_name TEXT,
  hash TEXT NOT NULL REFERENCES content (hash),
  width INTEGER NOT NULL CHECK (width > 0),
  height INTEGER NOT NULL CHECK (height > 0),
  byte_count INTEGER NOT NULL CHECK (byte_count > 0),
  original INTEGER NOT NULL DEFAULT 0 CHECK (original IN (0, 1)),
  CHECK ((sample_id IS NULL) <> (consignment_id IS NULL))
) STRICT;
CREATE INDEX attachment_sample ON attachment (sample_id);
CREATE INDEX attachment_consignment ON attachment (consignment_id);
CREATE INDEX attachment_hash ON attachment (hash);

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

-- Sieves, stacks and sieve analyses. A cut keeps what its sieve was called and how wide it was when it was used; a cut
-- without an opening is the pan.

CREATE TABLE sieve (
  id INTEGER PRIMARY KEY,
  struck INTEGER NOT NULL DEFAULT 0 CHECK (struck IN (0, 1)),
  name TEXT NOT NULL CHECK (name <> ''),
  series TEXT,
  opening TEXT NOT NULL,
  diameter TEXT,
  inspect_by TEXT,
  remarks TEXT
) STRICT;

CREATE TABLE sieve_stack (
  id INTEGER PRIMARY KEY,
  struck INTEGER NOT NULL DEFAULT 0 CHECK (struck IN (0, 1)),
  name TEXT NOT NULL CHECK (name <> ''),
  remarks TEXT
) STRICT;

CREATE TABLE stack_sieve (
  id INTEGER PRIMARY KEY,
  struck INTEGER NOT NULL DEFAULT 0 CHECK (struck IN (0, 1)),
  stack_id INTEGER NOT NULL REFERENCES sieve_stack,
  sieve_id INTEGER NOT NULL REFERENCES sieve
) STRICT;
CREATE INDEX stack_sieve_stack ON stack_sieve (stack_id);

CREATE TABLE sieve_analysis (
  id INTEGER PRIMARY KEY,
  struck INTEGER NOT NULL DEFAULT 0 CHECK (struck IN (0, 1)),
  portion_id INTEGER NOT NULL REFERENCES portion,
  stack_id INTEGER REFERENCES sieve_stack,
  sieved_at TEXT,
  sieved_by_id INTEGER REFERENCES person,
  method TEXT,
  minutes INTEGER CHECK (minutes >= 0),
  balance_id INTEGER REFERENCES balance,
  spoiled TEXT,
  remarks TEXT
) STRICT;
CREATE INDEX sieve_analysis_portion ON sieve_analysis (portion_id);

CREATE TABLE sieve_cut (
  id INTEGER PRIMARY KEY,
  struck INTEGER NOT NULL DEFAULT 0 CHECK (struck IN (0, 1)),
  analysis_id INTEGER NOT NULL REFERENCES sieve_analysis,
  sieve_id INTEGER REFERENCES sieve,
  name TEXT,
  series TEXT,
  opening TEXT,
  diameter TEXT,
  retained TEXT,
  fraction_id INTEGER REFERENCES portion,
  CHECK ((sieve_id IS NULL) = (opening IS NULL))
) STRICT;
CREATE INDEX sieve_cut_analysis ON sieve_cut (analysis_id);
