-- Summaries: drafts with a number, what was issued and what takes its place. The issued PDF stands in `content`.

CREATE TABLE summary (
  id INTEGER PRIMARY KEY,
  struck INTEGER NOT NULL DEFAULT 0 CHECK (struck IN (0, 1)),
  number TEXT NOT NULL UNIQUE CHECK (number <> ''),
  client_id INTEGER NOT NULL REFERENCES client,
  begun_at TEXT NOT NULL,
  amends_id INTEGER REFERENCES summary,
  what_changed TEXT,
  why_amended TEXT,
  hidden TEXT,
  paper TEXT,
  gold_price TEXT,
  silver_price TEXT,
  price_unit TEXT,
  price_date TEXT,
  issued_by_id INTEGER REFERENCES person,
  preliminary INTEGER NOT NULL DEFAULT 0 CHECK (preliminary IN (0, 1)),
  content_hash TEXT,
  file_hash TEXT REFERENCES content (hash),
  public_key TEXT,
  signature TEXT,
  issued_at TEXT,
  CHECK ((amends_id IS NULL) = (why_amended IS NULL)),
  CHECK (issued_at IS NULL OR (file_hash IS NOT NULL AND content_hash IS NOT NULL))
) STRICT;
CREATE INDEX summary_client ON summary (client_id);
CREATE INDEX summary_amends ON summary (amends_id);
CREATE INDEX summary_file ON summary (file_hash);

CREATE TABLE summary_sample (
  id INTEGER PRIMARY KEY,
  struck INTEGER NOT NULL DEFAULT 0 CHECK (struck IN (0, 1)),
  summary_id INTEGER NOT NULL REFERENCES summary,
  sample_id INTEGER NOT NULL REFERENCES sample,
  basis TEXT
) STRICT;
CREATE INDEX summary_sample_summary ON summary_sample (summary_id);
CREATE INDEX summary_sample_sample ON summary_sample (sample_id);

-- What was issued is frozen, whatever gesture tries: issued_at is written last.
CREATE TRIGGER issued_summary_is_frozen BEFORE UPDATE ON summary WHEN OLD.issued_at IS NOT NULL
BEGIN SELECT RAISE(ABORT, 'an issued summary is not changed'); END;
CREATE TRIGGER issued_sample_is_frozen BEFORE UPDATE ON summary_sample
WHEN EXISTS (SELECT 1 FROM summary s WHERE s.id = OLD.summary_id AND s.issued_at IS NOT NULL)
BEGIN SELECT RAISE(ABORT, 'an issued summary is not changed'); END;
