-- SPDX-License-Identifier: GPL-3.0-or-later

-- name: first_hash
SELECT hash FROM history WHERE id = 1

-- name: hash_at
SELECT hash FROM history WHERE id = ?1

-- name: last_history_id
SELECT coalesce(max(id), 0) FROM history

-- name: rows_since
SELECT count(*), count(DISTINCT change_set) FROM history WHERE id > ?1

-- name: persons_since
SELECT who, count(DISTINCT change_set) FROM history WHERE id > ?1 GROUP BY who ORDER BY 2 DESC, 1

-- name: made_since
SELECT entity, count(*) FROM history WHERE id > ?1 AND field = 0 GROUP BY entity ORDER BY entity

-- name: newest_gestures_since
SELECT id, change_set, takes_back, gesture, entity, record, field, old, new, who, utc_ms, offset_minutes, why, hash
FROM history
WHERE id IN (SELECT min(id) FROM history WHERE id > ?1 GROUP BY change_set ORDER BY change_set DESC LIMIT ?2)
ORDER BY id DESC

-- name: last_entry
SELECT id, change_set, takes_back, gesture, entity, record, field, old, new, who, utc_ms, offset_minutes, why, hash
FROM history ORDER BY id DESC LIMIT 1

-- name: samples_held
SELECT count(*) FROM sample WHERE struck = 0

-- name: history_from
SELECT id, change_set, takes_back, gesture, entity, record, field, old, new, who, utc_ms, offset_minutes, why, hash
FROM history WHERE id >= ?1 ORDER BY id

-- name: entries_after_by_index
SELECT count(*) FROM history INDEXED BY history_record WHERE entity >= 0 AND id >= ?1

-- name: begin
BEGIN IMMEDIATE

-- name: defer_references
PRAGMA defer_foreign_keys = ON

-- name: commit
COMMIT

-- name: content_of
SELECT bytes FROM content WHERE hash = ?1

-- name: lists_told_wrongly
SELECT 'bead_to_weigh', coalesce(l.bead_id, t.bead_id) FROM bead_lacking l FULL JOIN bead_to_weigh t ON t.bead_id = l.bead_id
WHERE l.what IS NOT t.what
UNION ALL
SELECT 'portion_to_test', coalesce(l.portion_id, t.portion_id)
FROM portion_lacking l FULL JOIN portion_to_test t ON t.portion_id = l.portion_id
WHERE l.purpose IS NOT t.purpose
UNION ALL
SELECT 'sample_to_cut', coalesce(l.sample_id, t.sample_id)
FROM sample_lacking l FULL JOIN sample_to_cut t ON t.sample_id = l.sample_id
WHERE l.cut IS NOT t.cut
UNION ALL
SELECT 'sample_tested', coalesce(l.sample_id, t.sample_id)
FROM sample_testing l FULL JOIN sample_tested t ON t.sample_id = l.sample_id
WHERE l.pan IS NOT t.pan OR l.fire IS NOT t.fire
ORDER BY 1, 2
