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
