-- The client's pages in the client's language and the lab's own words, and the account of a lot that was milled for its owner.

ALTER TABLE client ADD COLUMN language TEXT;

ALTER TABLE summary ADD COLUMN language TEXT;
ALTER TABLE summary ADD COLUMN title TEXT;
ALTER TABLE summary ADD COLUMN remarks TEXT;

CREATE TABLE own_text (
  id INTEGER PRIMARY KEY,
  struck INTEGER NOT NULL DEFAULT 0 CHECK (struck IN (0, 1)),
  language TEXT NOT NULL,
  key TEXT NOT NULL CHECK (key <> ''),
  words TEXT NOT NULL CHECK (words <> '')
) STRICT;
CREATE INDEX own_text_key ON own_text (language, key);

CREATE TABLE milling_lot (
  id INTEGER PRIMARY KEY,
  struck INTEGER NOT NULL DEFAULT 0 CHECK (struck IN (0, 1)),
  sample_id INTEGER NOT NULL REFERENCES sample,
  milled_at TEXT,
  milled_by_id INTEGER REFERENCES person,
  mass TEXT,
  moisture TEXT,
  head TEXT,
  concentrate TEXT,
  concentrate_gold TEXT,
  sponge TEXT,
  bullion TEXT,
  bullion_fineness TEXT,
  tail_gold TEXT,
  owner_share TEXT,
  agreement TEXT,
  remarks TEXT
) STRICT;
CREATE INDEX milling_lot_sample ON milling_lot (sample_id);
