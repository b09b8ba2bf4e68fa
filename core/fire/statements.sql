-- SPDX-License-Identifier: GPL-3.0-or-later

-- name: waiting_at_the_furnace
SELECT portion, charge, number, mark, at FROM (
  SELECT 1 AS rank, p.id AS portion, 0 AS charge, s.number || '/' || p.number AS number, s.mark AS mark, p.cut_at AS at
  FROM portion_to_test o CROSS JOIN portion p ON p.id = o.portion_id JOIN sample s ON s.id = p.sample_id
  WHERE o.purpose = 'fire' AND s.struck = 0
  UNION ALL
  SELECT DISTINCT 0, p.id, c.id, s.number || '/' || p.number, s.mark, c.fired_at
  FROM bead_to_weigh o CROSS JOIN bead b ON b.id = o.bead_id
  JOIN charge c ON c.id = b.charge_id JOIN portion p ON p.id = c.portion_id JOIN sample s ON s.id = p.sample_id
  WHERE o.what = 'bead' AND c.struck = 0 AND c.spoiled IS NULL AND p.struck = 0 AND s.struck = 0)
ORDER BY rank, portion LIMIT ?1 OFFSET ?2

-- name: count_waiting_at_the_furnace
SELECT (SELECT count(*) FROM portion_to_test o CROSS JOIN portion p ON p.id = o.portion_id JOIN sample s ON s.id = p.sample_id
  WHERE o.purpose = 'fire' AND s.struck = 0)
+ (SELECT count(DISTINCT c.id) FROM bead_to_weigh o CROSS JOIN bead b ON b.id = o.bead_id
  JOIN charge c ON c.id = b.charge_id JOIN portion p ON p.id = c.portion_id JOIN sample s ON s.id = p.sample_id
  WHERE o.what = 'bead' AND c.struck = 0 AND c.spoiled IS NULL AND p.struck = 0 AND s.struck = 0)
+ (SELECT count(*) FROM furnace_run WHERE struck = 0 AND ended_at IS NULL)

-- name: charges_made
SELECT p.id, c.id, s.number || '/' || p.number, s.mark, c.fired_at
FROM charge c JOIN portion p ON p.id = c.portion_id JOIN sample s ON s.id = p.sample_id
WHERE c.struck = 0 AND p.struck = 0 AND s.struck = 0 AND (c.spoiled IS NOT NULL OR NOT EXISTS
  (SELECT 1 FROM bead b WHERE b.charge_id = c.id AND b.struck = 0 AND b.none_seen = 0 AND NOT EXISTS
    (SELECT 1 FROM weighing w WHERE w.bead_id = b.id AND w.struck = 0)))
ORDER BY c.id DESC LIMIT ?1 OFFSET ?2

-- name: spoiled_without_repeat
SELECT c.id FROM charge c JOIN portion p ON p.id = c.portion_id
WHERE p.sample_id = ?1 AND c.struck = 0 AND c.spoiled IS NOT NULL AND NOT EXISTS
  (SELECT 1 FROM charge r WHERE r.repeat_of_id = c.id AND r.struck = 0)
ORDER BY c.id LIMIT 1
