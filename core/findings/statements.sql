-- SPDX-License-Identifier: GPL-3.0-or-later

-- name: answer_to
SELECT a.explanation, h.who, h.utc_ms, h.offset_minutes
FROM answer a JOIN history h ON h.entity = 12 AND h.record = a.id AND h.field = 0
WHERE a.scope = ?1 AND a.rule = ?2 AND a.evidence = ?3 AND a.struck = 0 ORDER BY a.id DESC LIMIT 1
