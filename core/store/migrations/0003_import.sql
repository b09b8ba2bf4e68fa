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
