-- SPDX-License-Identifier: GPL-3.0-or-later

-- The page is chosen first, from the newest sample down, and only its beads are counted: CROSS JOIN keeps SQLite to that order.
-- name: tested_samples
WITH page AS (
  SELECT t.sample_id AS id FROM sample_tested t
  WHERE (t.pan = 1 OR t.fire = 1) AND t.sample_id NOT IN (SELECT m.stock_id FROM control_material m WHERE m.struck = 0)
  ORDER BY t.sample_id DESC LIMIT ?1 OFFSET ?2)
SELECT s.id, s.number, s.mark, client.name,
  sum(b.pan_test_id IS NOT NULL), sum(b.charge_id IS NOT NULL),
  max(b.none_seen = 0 AND b.melted_into_id IS NULL AND (b.fineness_method IS NULL OR (b.fineness_method = 'parted' AND NOT EXISTS
    (SELECT 1 FROM weighing w WHERE w.bead_id = b.id AND w.what = 'gold' AND w.struck = 0 AND w.excluded IS NULL))))
FROM (
  SELECT p.sample_id, b.* FROM page CROSS JOIN portion p ON p.sample_id = page.id
  CROSS JOIN pan_test t ON t.portion_id = p.id CROSS JOIN bead b ON b.pan_test_id = t.id
  WHERE p.struck = 0 AND t.struck = 0 AND t.spoiled IS NULL
  UNION ALL
  SELECT p.sample_id, b.* FROM page CROSS JOIN portion p ON p.sample_id = page.id
  CROSS JOIN charge c ON c.portion_id = p.id CROSS JOIN bead b ON b.charge_id = c.id
  WHERE p.struck = 0 AND c.struck = 0 AND c.spoiled IS NULL) b
CROSS JOIN sample s ON s.id = b.sample_id
CROSS JOIN consignment ON consignment.id = s.consignment_id
CROSS JOIN client ON client.id = consignment.client_id
WHERE b.struck = 0 AND (b.none_seen = 1 OR EXISTS
  (SELECT 1 FROM weighing w WHERE w.bead_id = b.id AND w.what = 'bead' AND w.struck = 0 AND w.excluded IS NULL))
GROUP BY s.id ORDER BY s.id DESC

-- name: count_comparable_samples
SELECT count(*) FROM sample_tested t
WHERE t.pan = 1 AND t.fire = 1 AND t.sample_id NOT IN (SELECT m.stock_id FROM control_material m WHERE m.struck = 0)

-- name: comparable_samples
SELECT t.sample_id FROM sample_tested t
WHERE t.pan = 1 AND t.fire = 1 AND t.sample_id NOT IN (SELECT m.stock_id FROM control_material m WHERE m.struck = 0)
ORDER BY t.sample_id DESC

-- The newest sample of each consignment orders the clients; only those of the page have their samples counted.
-- name: clients_with_samples
WITH page AS (
  SELECT g.client_id, max((SELECT s.id FROM sample s WHERE s.consignment_id = g.id AND s.struck = 0
    AND s.id NOT IN (SELECT m.stock_id FROM control_material m WHERE m.struck = 0)
    ORDER BY s.id DESC LIMIT 1)) AS newest
  FROM consignment g WHERE g.struck = 0 GROUP BY g.client_id HAVING newest IS NOT NULL ORDER BY newest DESC LIMIT ?1 OFFSET ?2)
SELECT client.id, client.name, count(*), sum(t.pan = 1 OR t.fire = 1)
FROM page
CROSS JOIN client ON client.id = page.client_id
CROSS JOIN consignment ON consignment.client_id = client.id AND consignment.struck = 0
CROSS JOIN sample s ON s.consignment_id = consignment.id AND s.struck = 0
CROSS JOIN sample_tested t ON t.sample_id = s.id
WHERE s.id NOT IN (SELECT m.stock_id FROM control_material m WHERE m.struck = 0)
GROUP BY client.id ORDER BY page.newest DESC

-- name: count_clients_with_results
SELECT count(*) FROM client WHERE EXISTS (
  SELECT 1 FROM consignment g JOIN sample s ON s.consignment_id = g.id AND s.struck = 0 JOIN sample_tested t ON t.sample_id = s.id
  WHERE g.client_id = client.id AND g.struck = 0 AND (t.pan = 1 OR t.fire = 1))

-- name: samples_for_summary
SELECT s.id, s.number, s.mark, t.pan = 1 OR t.fire = 1
FROM consignment g JOIN sample s ON s.consignment_id = g.id JOIN sample_tested t ON t.sample_id = s.id
WHERE g.client_id = ?1 AND s.struck = 0 AND g.struck = 0 ORDER BY s.id

-- name: count_tests
SELECT (SELECT count(*) FROM portion p JOIN pan_test t ON t.portion_id = p.id AND t.struck = 0
        WHERE p.sample_id = ?1 AND p.struck = 0)
  + (SELECT count(*) FROM portion p JOIN charge c ON c.portion_id = p.id AND c.struck = 0
     WHERE p.sample_id = ?1 AND p.struck = 0)

-- name: charges_of_stock
SELECT c.id FROM portion p JOIN charge c ON c.portion_id = p.id
WHERE p.sample_id = ?1 AND c.id <= ?2 AND c.struck = 0 AND p.struck = 0 AND c.spoiled IS NULL AND c.excluded IS NULL
  AND c.role IS NOT NULL AND c.role <> 'flush'
ORDER BY c.id DESC LIMIT ?3

-- name: duplicate_charges
SELECT id FROM charge
WHERE role IN ('duplicate_field', 'duplicate_coarse', 'duplicate_pulp') AND duplicate_of_id IS NOT NULL AND struck = 0
ORDER BY id DESC LIMIT ?1

-- name: duplicate_pan_tests
SELECT id FROM pan_test
WHERE role IN ('duplicate_field', 'duplicate_coarse', 'duplicate_pulp') AND duplicate_of_id IS NOT NULL AND struck = 0
ORDER BY id DESC LIMIT ?1

-- name: runs_with_controls
SELECT r.id FROM furnace_run r
WHERE r.struck = 0 AND (EXISTS (SELECT 1 FROM charge c WHERE c.fusion_run_id = r.id AND c.role IS NOT NULL AND c.struck = 0)
  OR EXISTS (SELECT 1 FROM charge c WHERE c.cupellation_run_id = r.id AND c.role IS NOT NULL AND c.struck = 0)
  OR EXISTS (SELECT 1 FROM run_decision d WHERE d.run_id = r.id AND d.struck = 0))
ORDER BY r.id DESC LIMIT ?1

-- name: runs_to_decide
SELECT r.id FROM furnace_run r
WHERE r.struck = 0 AND (EXISTS (SELECT 1 FROM charge c WHERE c.fusion_run_id = r.id AND c.role IS NOT NULL AND c.struck = 0)
  OR EXISTS (SELECT 1 FROM charge c WHERE c.cupellation_run_id = r.id AND c.role IS NOT NULL AND c.struck = 0))
  AND NOT EXISTS (SELECT 1 FROM run_decision d WHERE d.run_id = r.id AND d.struck = 0)
ORDER BY r.id DESC LIMIT ?1
