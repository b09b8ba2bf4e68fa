-- SPDX-License-Identifier: GPL-3.0-or-later

-- name: last_panning
SELECT coalesce(max(number), 0) FROM panning WHERE pan_test_id = ?1

-- name: waiting_to_pan
SELECT p.id, 0, s.number || '/' || p.number, s.mark, p.cut_at
FROM portion_to_test o CROSS JOIN portion p ON p.id = o.portion_id JOIN sample s ON s.id = p.sample_id
WHERE o.purpose = 'pan' AND s.struck = 0
ORDER BY o.portion_id LIMIT ?1 OFFSET ?2

-- name: count_waiting_to_pan
SELECT count(*)
FROM portion_to_test o CROSS JOIN portion p ON p.id = o.portion_id JOIN sample s ON s.id = p.sample_id
WHERE o.purpose = 'pan' AND s.struck = 0

-- name: pan_tests_made
SELECT p.id, t.id, s.number || '/' || p.number, s.mark, t.panned_at
FROM pan_test t JOIN portion p ON p.id = t.portion_id JOIN sample s ON s.id = p.sample_id
WHERE t.struck = 0 AND p.struck = 0 AND s.struck = 0
ORDER BY t.id DESC LIMIT ?1 OFFSET ?2
