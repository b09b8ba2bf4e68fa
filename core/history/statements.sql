-- SPDX-License-Identifier: GPL-3.0-or-later

-- name: last_row
SELECT id, change_set, hash FROM history ORDER BY id DESC LIMIT 1

-- name: append
INSERT INTO history (id, change_set, takes_back, gesture, entity, record, field, old, new, who, utc_ms, offset_minutes, why, hash)
VALUES (?1, ?2, ?3, ?4, ?5, ?6, ?7, ?8, ?9, ?10, ?11, ?12, ?13, ?14)

-- name: rows_of_change_set
SELECT entity, record, field, old, new FROM history WHERE change_set = ?1 ORDER BY id DESC

-- name: all_rows
SELECT id, change_set, takes_back, gesture, entity, record, field, old, new, who, utc_ms, offset_minutes, why, hash
FROM history ORDER BY id

-- name: rows_of_record
SELECT id, change_set, takes_back, gesture, entity, record, field, old, new, who, utc_ms, offset_minutes, why, hash
FROM history WHERE entity = ?1 AND record = ?2 ORDER BY id

-- name: rows_of_entity
SELECT record, field, old, new, id FROM history WHERE entity = ?1 ORDER BY record, id

-- name: rows_for_chain
SELECT id, change_set, takes_back, gesture, entity, record, field, old, new, who, utc_ms, offset_minutes, why, hash,
       typeof(old), typeof(new)
FROM history ORDER BY id

-- name: count_of_rows
SELECT count(*) FROM history

-- name: count_of_search
SELECT count(*) FROM sqlite_schema WHERE name = 'search'

-- name: samples_of_consignment
SELECT id FROM sample WHERE consignment_id = ?1

-- name: consignments_of_client
SELECT id FROM consignment WHERE client_id = ?1

-- name: samples_of_client
SELECT s.id FROM consignment c JOIN sample s ON s.consignment_id = c.id WHERE c.client_id = ?1

-- name: drop_words
DELETE FROM search WHERE rowid BETWEEN ?1 AND ?2

-- name: drop_all_words
DELETE FROM search

-- name: add_sample_words
INSERT INTO search (rowid, number, mark, client, consignment, place, remarks)
SELECT s.id, s.number, s.mark, client.name, c.number, s.place, s.remarks
FROM sample s JOIN consignment c ON c.id = s.consignment_id JOIN client ON client.id = c.client_id
WHERE s.id BETWEEN ?1 AND ?2 AND s.struck = 0

-- name: add_consignment_words
INSERT INTO search (rowid, number, mark, client, consignment, place, remarks)
SELECT 1099511627776 + c.id, c.number, NULL, client.name, NULL, c.carrier, c.remarks
FROM consignment c JOIN client ON client.id = c.client_id
WHERE c.id BETWEEN ?1 AND ?2 AND c.struck = 0

-- name: samples_not_found
SELECT s.id
FROM sample s JOIN consignment c ON c.id = s.consignment_id JOIN client ON client.id = c.client_id
     LEFT JOIN search f ON f.rowid = s.id
WHERE s.struck = 0 AND (f.number IS NOT s.number OR f.mark IS NOT s.mark OR f.client IS NOT client.name
  OR f.consignment IS NOT c.number OR f.place IS NOT s.place OR f.remarks IS NOT s.remarks)

-- name: consignments_not_found
SELECT 1099511627776 + c.id
FROM consignment c JOIN client ON client.id = c.client_id LEFT JOIN search f ON f.rowid = 1099511627776 + c.id
WHERE c.struck = 0 AND (f.number IS NOT c.number OR f.mark IS NOT NULL OR f.client IS NOT client.name
  OR f.consignment IS NOT NULL OR f.place IS NOT c.carrier OR f.remarks IS NOT c.remarks)

-- name: words_of_nothing
SELECT f.rowid FROM search f
WHERE NOT EXISTS (SELECT 1 FROM sample s WHERE s.id = f.rowid AND s.struck = 0)
  AND NOT EXISTS (SELECT 1 FROM consignment c WHERE c.id = f.rowid - 1099511627776 AND c.struck = 0)
-- name: keep_content
INSERT INTO content (hash, bytes) VALUES (?1, ?2) ON CONFLICT (hash) DO NOTHING

-- name: content
SELECT bytes FROM content WHERE hash = ?1

-- name: all_contents
SELECT hash, bytes FROM content ORDER BY hash

-- name: attachments_without_content
SELECT a.id, a.hash FROM attachment a WHERE NOT EXISTS (SELECT 1 FROM content c WHERE c.hash = a.hash) ORDER BY a.id

-- name: contents_without_attachment
SELECT c.hash FROM content c WHERE NOT EXISTS (SELECT 1 FROM attachment a WHERE a.hash = c.hash) ORDER BY c.hash

-- name: contents_without_owner
SELECT c.hash FROM content c WHERE NOT EXISTS (SELECT 1 FROM attachment a WHERE a.hash = c.hash)
AND NOT EXISTS (SELECT 1 FROM summary s WHERE s.file_hash = c.hash) ORDER BY c.hash
