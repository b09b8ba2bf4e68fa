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
