-- SPDX-License-Identifier: GPL-3.0-or-later

-- name: standing
SELECT t.id, t.name, t.kind, p.position
FROM tray_place p JOIN tray t ON t.id = p.tray_id
WHERE p.struck = 0 AND t.struck = 0 AND t.put_away_at IS NULL AND (p.charge_id = ?1 OR p.bead_id = ?2)
ORDER BY t.id, p.position
