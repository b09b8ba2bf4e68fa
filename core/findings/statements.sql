-- SPDX-License-Identifier: GPL-3.0-or-later

-- name: answer_to
SELECT a.explanation, h.who, h.utc_ms, h.offset_minutes
FROM answer a JOIN history h ON h.entity = 12 AND h.record = a.id AND h.field = 0
WHERE a.scope = ?1 AND a.rule = ?2 AND a.evidence = ?3 AND a.struck = 0 ORDER BY a.id DESC LIMIT 1

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

-- name: sample_stands
SELECT count(*) FROM sample WHERE id = ?1 AND struck = 0

-- name: answers_of_scope
SELECT a.rule, a.evidence, a.explanation, h.who, h.utc_ms, h.offset_minutes
FROM answer a JOIN history h ON h.entity = 12 AND h.record = a.id AND h.field = 0
WHERE a.scope = ?1 AND a.struck = 0 ORDER BY a.id DESC
