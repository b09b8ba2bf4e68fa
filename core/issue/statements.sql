-- SPDX-License-Identifier: GPL-3.0-or-later

-- name: last_summary_number
SELECT number FROM summary WHERE substr(number, 1, length(?1)) = ?1 ORDER BY length(number) DESC, number DESC LIMIT 1

-- name: issued_among
SELECT DISTINCT p.sample_id FROM summary_sample p JOIN summary s ON s.id = p.summary_id
WHERE p.sample_id IN (SELECT value FROM json_each(?1)) AND p.struck = 0 AND s.struck = 0 AND s.issued_at IS NOT NULL
AND NOT EXISTS (SELECT 1 FROM summary n WHERE n.amends_id = s.id AND n.struck = 0 AND n.issued_at IS NOT NULL)

-- name: issued_with_sample
SELECT s.id, s.number, p.basis FROM summary_sample p JOIN summary s ON s.id = p.summary_id
WHERE p.sample_id = ?1 AND p.struck = 0 AND s.struck = 0 AND s.issued_at IS NOT NULL
AND NOT EXISTS (SELECT 1 FROM summary n WHERE n.amends_id = s.id AND n.struck = 0 AND n.issued_at IS NOT NULL)
ORDER BY s.id
