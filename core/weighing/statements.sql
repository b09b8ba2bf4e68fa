-- SPDX-License-Identifier: GPL-3.0-or-later

-- name: next_number
SELECT coalesce(max(number), 0) + 1 FROM weighing WHERE bead_id = ?1 AND what = ?2

-- name: origin
SELECT b.id, s.id, p.id, s.number, s.mark, b.pan_test_id IS NOT NULL, p.number, s.expected, p.mass
FROM bead b
LEFT JOIN pan_test t ON t.id = b.pan_test_id
LEFT JOIN charge c ON c.id = b.charge_id
JOIN portion p ON p.id = coalesce(t.portion_id, c.portion_id)
JOIN sample s ON s.id = p.sample_id
WHERE b.id = ?1

-- name: beads_to_weigh
SELECT b.id, s.id, p.id, s.number, s.mark, b.pan_test_id IS NOT NULL, p.number, s.expected, p.mass
FROM bead_to_weigh o
CROSS JOIN bead b ON b.id = o.bead_id
LEFT JOIN pan_test t ON t.id = b.pan_test_id
LEFT JOIN charge c ON c.id = b.charge_id
JOIN portion p ON p.id = coalesce(t.portion_id, c.portion_id)
JOIN sample s ON s.id = p.sample_id
WHERE o.what = ?1 AND s.struck = 0 AND p.struck = 0
  AND coalesce(t.struck, c.struck) = 0 AND coalesce(t.spoiled, c.spoiled) IS NULL
ORDER BY o.bead_id LIMIT ?2

-- name: count_beads_to_weigh
SELECT count(*)
FROM bead_to_weigh o
CROSS JOIN bead b ON b.id = o.bead_id
LEFT JOIN pan_test t ON t.id = b.pan_test_id
LEFT JOIN charge c ON c.id = b.charge_id
JOIN portion p ON p.id = coalesce(t.portion_id, c.portion_id)
JOIN sample s ON s.id = p.sample_id
WHERE o.what = ?1 AND s.struck = 0 AND p.struck = 0
  AND coalesce(t.struck, c.struck) = 0 AND coalesce(t.spoiled, c.spoiled) IS NULL

-- name: recent_weighings
SELECT w.id, b.id, s.number, w.what, b.pan_test_id IS NOT NULL, w.mass, p.number, w.weighed_at, person.initials,
  w.excluded IS NOT NULL, b.pan_test_id, b.charge_id
FROM weighing w
LEFT JOIN person ON person.id = w.weighed_by_id
JOIN bead b ON b.id = w.bead_id
LEFT JOIN pan_test t ON t.id = b.pan_test_id
LEFT JOIN charge c ON c.id = b.charge_id
JOIN portion p ON p.id = coalesce(t.portion_id, c.portion_id)
JOIN sample s ON s.id = p.sample_id
WHERE w.struck = 0 ORDER BY w.id DESC LIMIT ?1

-- name: newest_checks
SELECT id FROM check_weighing WHERE struck = 0 AND balance_id = ?1 ORDER BY weighed_at DESC, id DESC LIMIT ?2
