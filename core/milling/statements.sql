-- SPDX-License-Identifier: GPL-3.0-or-later

-- name: waiting_for_machine
SELECT s.id, s.number, s.mark, client.name, s.mass_received, s.expected, s.due, EXISTS (
  SELECT 1 FROM portion p LEFT JOIN pan_test t ON t.portion_id = p.id AND t.struck = 0
  LEFT JOIN charge h ON h.portion_id = p.id AND h.struck = 0
  WHERE p.sample_id = s.id AND p.struck = 0 AND (t.id IS NOT NULL OR h.id IS NOT NULL))
FROM sample_to_cut o CROSS JOIN sample s ON s.id = o.sample_id
JOIN consignment c ON c.id = s.consignment_id JOIN client ON client.id = c.client_id
WHERE c.struck = 0
  AND NOT EXISTS (SELECT 1 FROM step t WHERE t.sample_id = s.id AND t.struck = 0 AND t.machine_id IS NOT NULL
                  AND (t.machine_id = ?1 OR ?1 = 0))
  AND NOT EXISTS (SELECT 1 FROM control_material k WHERE k.stock_id = s.id AND k.struck = 0 AND k.kind <> 'blank_rock')
ORDER BY o.sample_id LIMIT ?2

-- name: count_waiting
SELECT count(*) FROM sample_to_cut o CROSS JOIN sample s ON s.id = o.sample_id JOIN consignment c ON c.id = s.consignment_id
WHERE c.struck = 0
  AND NOT EXISTS (SELECT 1 FROM step t WHERE t.sample_id = s.id AND t.struck = 0 AND t.machine_id IS NOT NULL)
  AND NOT EXISTS (SELECT 1 FROM control_material k WHERE k.stock_id = s.id AND k.struck = 0 AND k.kind <> 'blank_rock')
  AND EXISTS (SELECT 1 FROM machine m WHERE m.struck = 0)

-- name: recently_prepared
SELECT s.id, s.number, s.mark, (SELECT l.kind FROM step l WHERE l.sample_id = s.id AND l.struck = 0 ORDER BY l.id DESC LIMIT 1)
FROM sample s JOIN step t ON t.sample_id = s.id AND t.struck = 0
WHERE s.struck = 0 GROUP BY s.id ORDER BY max(t.id) DESC LIMIT ?1
