-- SPDX-License-Identifier: GPL-3.0-or-later

-- name: last_sample_number
SELECT number FROM sample WHERE substr(number, 1, length(?1)) = ?1 ORDER BY length(number) DESC, number DESC LIMIT 1

-- name: last_consignment_number
SELECT number FROM consignment WHERE substr(number, 1, length(?1)) = ?1 ORDER BY length(number) DESC, number DESC LIMIT 1

-- name: sample_by_number
SELECT id FROM sample WHERE number = ?1 AND struck = 0

-- name: consignments
SELECT c.id, c.number, client.name, c.arrived, (SELECT count(*) FROM sample s WHERE s.consignment_id = c.id AND s.struck = 0)
FROM consignment c JOIN client ON client.id = c.client_id
WHERE c.struck = 0 ORDER BY c.id DESC LIMIT ?1 OFFSET ?2

-- name: recent_samples
SELECT s.id, s.number, s.mark, client.name, s.condition
FROM sample s JOIN consignment c ON c.id = s.consignment_id JOIN client ON client.id = c.client_id
WHERE s.struck = 0 ORDER BY s.id DESC LIMIT ?1 OFFSET ?2

-- name: uncut_samples
SELECT s.id, s.number, s.mark, client.name, s.condition
FROM sample_to_cut o CROSS JOIN sample s ON s.id = o.sample_id
JOIN consignment c ON c.id = s.consignment_id JOIN client ON client.id = c.client_id
WHERE o.cut = 0 AND NOT EXISTS (SELECT 1 FROM control_material m WHERE m.stock_id = s.id AND m.struck = 0)
ORDER BY o.sample_id LIMIT ?1

-- name: count_uncut_samples
SELECT count(*) FROM sample_to_cut o
WHERE o.cut = 0 AND NOT EXISTS (SELECT 1 FROM control_material m WHERE m.stock_id = o.sample_id AND m.struck = 0)

-- name: samples_of_client
SELECT s.id FROM sample s JOIN consignment c ON c.id = s.consignment_id
WHERE c.client_id = ?1 AND s.struck = 0 AND c.struck = 0 ORDER BY s.id

-- name: waiting_samples
SELECT s.id, s.number, s.mark, client.name, s.condition, s.treatment, s.due
FROM sample_to_cut o CROSS JOIN sample s ON s.id = o.sample_id
JOIN consignment c ON c.id = s.consignment_id JOIN client ON client.id = c.client_id
WHERE o.cut = 0 AND NOT EXISTS (SELECT 1 FROM control_material m WHERE m.stock_id = s.id AND m.struck = 0)
ORDER BY o.sample_id LIMIT ?1

-- name: samples_retained
SELECT s.id, s.number, s.mark, client.name, s.condition, s.treatment, s.retain_until
FROM sample s JOIN consignment c ON c.id = s.consignment_id JOIN client ON client.id = c.client_id
WHERE s.struck = 0 AND s.retain_until IS NOT NULL AND s.disposal IS NULL

-- name: next_piece_number
SELECT coalesce(max(number), 0) + 1 FROM piece WHERE consignment_id = ?1

-- name: consignment_by_number
SELECT id FROM consignment WHERE number = ?1 AND struck = 0

-- name: place_by_name
SELECT id FROM place WHERE name = ?1 AND struck = 0

-- name: made_at
SELECT utc_ms, offset_minutes, who FROM history WHERE entity = ?1 AND record = ?2 AND field = 0 ORDER BY id LIMIT 1

-- name: marks_of_consignment
SELECT id, number, mark FROM sample WHERE consignment_id = ?1 AND struck = 0 ORDER BY id
