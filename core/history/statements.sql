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
