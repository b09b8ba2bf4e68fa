-- SPDX-License-Identifier: GPL-3.0-or-later

-- name: standing
SELECT t.id, t.name, t.kind, p.position
FROM tray_place p JOIN tray t ON t.id = p.tray_id
WHERE p.struck = 0 AND t.struck = 0 AND t.put_away_at IS NULL AND (p.charge_id = ?1 OR p.bead_id = ?2)
ORDER BY t.id, p.position

-- name: stood
SELECT t.id, t.name, t.kind, p.position
FROM tray_place p JOIN tray t ON t.id = p.tray_id
WHERE p.struck = 0 AND t.struck = 0 AND (p.charge_id = ?1 OR p.bead_id = ?2)
ORDER BY CASE t.kind WHEN 'crucible' THEN 1 WHEN 'mould' THEN 2 WHEN 'cupel' THEN 3 ELSE 4 END, t.id, p.position

-- name: earlier_positions
SELECT h.record, h.old
FROM tray_place p JOIN history h ON h.entity = 81 AND h.record = p.id
WHERE p.tray_id = ?1 AND h.field = 3 AND h.old IS NOT NULL ORDER BY h.id

-- name: shifts
SELECT h.change_set, h.record, h.field, h.old, h.new, h.who, h.utc_ms, h.offset_minutes, h.why, p.position
FROM tray_place p JOIN history h ON h.entity = 81 AND h.record = p.id
WHERE p.tray_id = ?1 AND h.field IN (1, 3) AND h.old IS NOT NULL ORDER BY h.id

-- name: called
SELECT coalesce((SELECT max(c.id) FROM charge c WHERE c.portion_id = p.id AND c.struck = 0 AND c.spoiled IS NULL), 0),
  coalesce((SELECT max(b.id) FROM bead b JOIN pan_test t ON t.id = b.pan_test_id
    WHERE t.portion_id = p.id AND t.struck = 0 AND t.spoiled IS NULL AND b.struck = 0), 0)
FROM portion p JOIN sample s ON s.id = p.sample_id
WHERE p.struck = 0 AND s.struck = 0 AND s.number = ?1 AND (?2 = 0 OR p.number = ?2)

-- name: name_of_thing
SELECT s.number || '/' || p.number, s.mark, p.mass
FROM portion p JOIN sample s ON s.id = p.sample_id
WHERE p.id = coalesce((SELECT c.portion_id FROM charge c WHERE c.id = ?1),
  (SELECT coalesce(t.portion_id, c.portion_id) FROM bead b LEFT JOIN pan_test t ON t.id = b.pan_test_id
    LEFT JOIN charge c ON c.id = b.charge_id WHERE b.id = ?2))

-- name: without_place
SELECT c.id
FROM charge c JOIN portion p ON p.id = c.portion_id JOIN sample s ON s.id = p.sample_id
WHERE c.struck = 0 AND c.spoiled IS NULL AND p.struck = 0 AND s.struck = 0 AND EXISTS
  (SELECT 1 FROM bead b WHERE b.charge_id = c.id AND b.struck = 0 AND b.none_seen = 0 AND NOT EXISTS
    (SELECT 1 FROM weighing w WHERE w.bead_id = b.id AND w.struck = 0))
  AND NOT EXISTS (SELECT 1 FROM tray_place q JOIN tray t ON t.id = q.tray_id
    WHERE q.charge_id = c.id AND q.struck = 0 AND t.struck = 0 AND t.put_away_at IS NULL AND t.kind = ?1)
ORDER BY c.id LIMIT ?2
