-- SPDX-License-Identifier: GPL-3.0-or-later

-- name: last_of_role
SELECT id, fired_at FROM charge WHERE role = ?1 AND id <= ?2 AND struck = 0 AND spoiled IS NULL ORDER BY id DESC LIMIT 1

-- name: controls_between
SELECT id, fired_at FROM charge WHERE role = ?1 AND id > ?2 AND id <= ?3 AND struck = 0 AND spoiled IS NULL

-- name: ordinary_charges_between
SELECT count(*) FROM (SELECT 1 FROM charge
  WHERE id > ?1 AND id <= ?2 AND role IS NULL AND struck = 0 AND spoiled IS NULL LIMIT ?3)

-- name: last_charge
SELECT coalesce(max(id), 0) FROM charge

-- name: lots_without_flux_blank
SELECT l.name FROM lot l
WHERE l.struck = 0 AND l.used_up_at IS NULL AND l.kind IN ('flux', 'litharge') AND l.silver IS NULL AND NOT EXISTS
  (SELECT 1 FROM charge c WHERE c.role = 'blank_flux' AND c.struck = 0 AND c.spoiled IS NULL
    AND (c.flux_lot_id = l.id OR c.litharge_lot_id = l.id))
ORDER BY l.id
