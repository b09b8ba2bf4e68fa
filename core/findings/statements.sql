-- SPDX-License-Identifier: GPL-3.0-or-later

-- name: samples_of_consignment
SELECT id FROM sample WHERE consignment_id = ?1 AND struck = 0

-- name: samples_of_consignment_of
SELECT s.id FROM sample mine JOIN sample s ON s.consignment_id = mine.consignment_id WHERE mine.id = ?1 AND s.struck = 0

-- name: samples_of_summary
SELECT sample_id FROM summary_sample WHERE summary_id = ?1

-- name: samples_on_machine
SELECT DISTINCT sample_id FROM step WHERE machine_id = ?1 AND struck = 0

-- name: next_in_pot
SELECT (SELECT p.sample_id FROM charge n JOIN portion p ON p.id = n.portion_id
        WHERE n.pot_id = c.pot_id AND n.id > c.id AND n.struck = 0 ORDER BY n.id LIMIT 1) AS next
FROM portion own JOIN charge c ON c.portion_id = own.id
WHERE own.sample_id = ?1 AND c.pot_id IS NOT NULL AND next IS NOT NULL

-- name: sample_ids
SELECT id FROM sample WHERE struck = 0 ORDER BY id

-- name: answers_of_scopes
SELECT a.scope, a.rule, a.evidence, a.explanation, h.who, h.utc_ms, h.offset_minutes
FROM answer a JOIN history h ON h.entity = 12 AND h.record = a.id AND h.field = 0
WHERE a.scope IN (SELECT value FROM json_each(?1)) AND a.struck = 0 ORDER BY a.id DESC

-- name: samples_in_load
SELECT p.sample_id FROM charge c JOIN portion p ON p.id = c.portion_id WHERE c.fusion_run_id = ?1
UNION SELECT p.sample_id FROM charge c JOIN portion p ON p.id = c.portion_id WHERE c.cupellation_run_id = ?1

-- name: controls_of_charge
SELECT p.sample_id, c.id FROM charge c JOIN portion p ON p.id = c.portion_id
WHERE (c.id = ?1 OR c.duplicate_of_id = ?1) AND c.role IS NOT NULL

-- name: samples_beside_controls
WITH control (fusion, cupellation) AS (
  SELECT c.fusion_run_id, c.cupellation_run_id FROM portion p JOIN charge c ON c.portion_id = p.id
  WHERE p.sample_id = ?1 AND c.id >= ?2 AND c.role IS NOT NULL),
load (id) AS (SELECT fusion FROM control WHERE fusion IS NOT NULL UNION SELECT cupellation FROM control WHERE cupellation IS NOT NULL)
SELECT p.sample_id FROM load JOIN charge c ON c.fusion_run_id = load.id JOIN portion p ON p.id = c.portion_id
UNION SELECT p.sample_id FROM load JOIN charge c ON c.cupellation_run_id = load.id JOIN portion p ON p.id = c.portion_id

-- name: samples_of_later_charges
SELECT p.sample_id FROM (SELECT portion_id FROM charge WHERE id > ?1 ORDER BY id LIMIT 1000) c
JOIN portion p ON p.id = c.portion_id

-- name: samples_of_former_loads
WITH past (field, old) AS (SELECT field, old FROM history WHERE entity = 9 AND record = ?1 AND old IS NOT NULL),
load (id) AS (SELECT old FROM past WHERE field IN (52, 58) UNION SELECT fusion_run_id FROM charge WHERE id = ?1
  UNION SELECT cupellation_run_id FROM charge WHERE id = ?1),
control (id) AS (SELECT id FROM charge WHERE id = ?1 AND (role IS NOT NULL OR EXISTS (SELECT 1 FROM past WHERE field = 80)))
SELECT p.sample_id FROM control, load JOIN charge c ON c.fusion_run_id = load.id JOIN portion p ON p.id = c.portion_id
UNION SELECT p.sample_id FROM control, load JOIN charge c ON c.cupellation_run_id = load.id JOIN portion p ON p.id = c.portion_id

-- name: samples_paired_with
SELECT q.sample_id FROM portion p JOIN charge c ON c.portion_id = p.id JOIN charge o ON o.id = c.duplicate_of_id
JOIN portion q ON q.id = o.portion_id WHERE p.sample_id = ?1
UNION SELECT q.sample_id FROM portion p JOIN charge c ON c.portion_id = p.id JOIN charge o ON o.duplicate_of_id = c.id
JOIN portion q ON q.id = o.portion_id WHERE p.sample_id = ?1
UNION SELECT q.sample_id FROM portion p JOIN pan_test t ON t.portion_id = p.id JOIN pan_test o ON o.id = t.duplicate_of_id
JOIN portion q ON q.id = o.portion_id WHERE p.sample_id = ?1
UNION SELECT q.sample_id FROM portion p JOIN pan_test t ON t.portion_id = p.id JOIN pan_test o ON o.duplicate_of_id = t.id
JOIN portion q ON q.id = o.portion_id WHERE p.sample_id = ?1

-- name: samples_on_tray
SELECT p.sample_id FROM tray_place t JOIN charge c ON c.id = t.charge_id JOIN portion p ON p.id = c.portion_id WHERE t.tray_id = ?1
UNION SELECT p.sample_id FROM tray_place t JOIN bead b ON b.id = t.bead_id JOIN charge c ON c.id = b.charge_id
JOIN portion p ON p.id = c.portion_id WHERE t.tray_id = ?1
UNION SELECT p.sample_id FROM tray_place t JOIN bead b ON b.id = t.bead_id JOIN pan_test n ON n.id = b.pan_test_id
JOIN portion p ON p.id = n.portion_id WHERE t.tray_id = ?1
