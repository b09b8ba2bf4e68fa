-- SPDX-License-Identifier: GPL-3.0-or-later

-- name: last_entry_id
SELECT coalesce(max(id), 0) FROM history

-- name: takes_back_of
SELECT takes_back FROM history WHERE change_set = ?1 LIMIT 1

-- name: authors
SELECT initials FROM person WHERE struck = 0 ORDER BY initials

-- name: journal_rows
SELECT * FROM (
  SELECT id, change_set, takes_back, gesture, entity, record, field, old, new, who, utc_ms, offset_minutes, why, hash,
         (?3 = '' OR who = ?3) AND (?4 = 0 OR entity = ?4) AND (?5 IS NULL OR utc_ms >= ?5) AND (?6 IS NULL OR utc_ms < ?6)
           AND (?7 = '' OR gesture LIKE ?7 ESCAPE '\' OR why LIKE ?7 ESCAPE '\' OR old LIKE ?7 ESCAPE '\' OR new LIKE ?7 ESCAPE '\') AS fits
  FROM history WHERE id >= ?1 AND id < ?2
) WHERE fits OR takes_back IS NOT NULL ORDER BY id DESC
