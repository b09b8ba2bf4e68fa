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
