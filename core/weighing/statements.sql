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

-- name: waiting_beads
SELECT b.id, s.id, p.id, s.number, s.mark, b.pan_test_id IS NOT NULL, p.number, s.expected, p.mass
FROM bead b
LEFT JOIN pan_test t ON t.id = b.pan_test_id
LEFT JOIN charge c ON c.id = b.charge_id
JOIN portion p ON p.id = coalesce(t.portion_id, c.portion_id)
JOIN sample s ON s.id = p.sample_id
WHERE b.struck = 0 AND b.none_seen = 0 AND s.struck = 0 AND p.struck = 0
  AND coalesce(t.struck, c.struck) = 0 AND coalesce(t.spoiled, c.spoiled) IS NULL
  AND NOT EXISTS (SELECT 1 FROM weighing w WHERE w.bead_id = b.id AND w.struck = 0)
ORDER BY b.id LIMIT ?1

-- name: count_waiting_beads
SELECT count(*)
FROM bead b
LEFT JOIN pan_test t ON t.id = b.pan_test_id
LEFT JOIN charge c ON c.id = b.charge_id
JOIN portion p ON p.id = coalesce(t.portion_id, c.portion_id)
JOIN sample s ON s.id = p.sample_id
WHERE b.struck = 0 AND b.none_seen = 0 AND s.struck = 0 AND p.struck = 0
  AND coalesce(t.struck, c.struck) = 0 AND coalesce(t.spoiled, c.spoiled) IS NULL
  AND NOT EXISTS (SELECT 1 FROM weighing w WHERE w.bead_id = b.id AND w.struck = 0)

-- name: beads_without_gold
SELECT b.id, s.id, p.id, s.number, s.mark, b.pan_test_id IS NOT NULL, p.number, s.expected, p.mass
FROM bead b
LEFT JOIN pan_test t ON t.id = b.pan_test_id
LEFT JOIN charge c ON c.id = b.charge_id
JOIN portion p ON p.id = coalesce(t.portion_id, c.portion_id)
JOIN sample s ON s.id = p.sample_id
WHERE b.struck = 0 AND b.none_seen = 0 AND s.struck = 0 AND p.struck = 0
  AND coalesce(t.struck, c.struck) = 0 AND coalesce(t.spoiled, c.spoiled) IS NULL
  AND coalesce(b.fineness_method, 'parted') = 'parted' AND b.melted_into_id IS NULL
  AND EXISTS (SELECT 1 FROM weighing w WHERE w.bead_id = b.id AND w.what = 'bead' AND w.struck = 0 AND w.excluded IS NULL)
  AND NOT EXISTS (SELECT 1 FROM weighing w WHERE w.bead_id = b.id AND w.what = 'gold' AND w.struck = 0 AND w.excluded IS NULL)
ORDER BY b.id LIMIT ?1

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
