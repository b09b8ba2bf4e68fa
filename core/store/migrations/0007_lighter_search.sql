-- SPDX-License-Identifier: GPL-3.0-or-later
-- The words to find by without what they can do without: the first two letters are enough of an index, and nothing asks
-- how long a text is (docs/decisions/0011-find-words-by-two-letters.md).

DROP TABLE search;
CREATE VIRTUAL TABLE search USING fts5(
  number, mark, client, consignment, place, remarks,
  tokenize = 'unicode61 remove_diacritics 2', prefix = '2', columnsize = 0
);
INSERT INTO search (rowid, number, mark, client, consignment, place, remarks)
SELECT s.id, s.number, s.mark, client.name, c.number, s.place, s.remarks
FROM sample s JOIN consignment c ON c.id = s.consignment_id JOIN client ON client.id = c.client_id
WHERE s.struck = 0;
INSERT INTO search (rowid, number, mark, client, consignment, place, remarks)
SELECT 1099511627776 + c.id, c.number, NULL, client.name, NULL, c.carrier, c.remarks
FROM consignment c JOIN client ON client.id = c.client_id
WHERE c.struck = 0;
