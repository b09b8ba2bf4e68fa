-- SPDX-License-Identifier: GPL-3.0-or-later

-- name: waiting_to_sieve
SELECT portion, analysis, number, mark, at FROM (
  SELECT 1 AS rank, p.id AS portion, 0 AS analysis, s.number || '/' || p.number AS number, s.mark AS mark, p.cut_at AS at
  FROM portion_to_test o CROSS JOIN portion p ON p.id = o.portion_id JOIN sample s ON s.id = p.sample_id
  WHERE o.purpose = 'sieve' AND s.struck = 0
  UNION ALL
  SELECT 0, p.id, a.id, s.number || '/' || p.number, s.mark, a.sieved_at
  FROM sieve_analysis a JOIN portion p ON p.id = a.portion_id JOIN sample s ON s.id = p.sample_id
  WHERE a.struck = 0 AND a.spoiled IS NULL AND p.struck = 0 AND s.struck = 0 AND EXISTS
    (SELECT 1 FROM sieve_cut c WHERE c.analysis_id = a.id AND c.struck = 0 AND c.retained IS NULL))
ORDER BY rank, portion LIMIT ?1 OFFSET ?2

-- name: count_waiting_to_sieve
SELECT
  (SELECT count(*) FROM portion_to_test o CROSS JOIN portion p ON p.id = o.portion_id JOIN sample s ON s.id = p.sample_id
   WHERE o.purpose = 'sieve' AND s.struck = 0)
  + (SELECT count(*) FROM sieve_analysis a JOIN portion p ON p.id = a.portion_id JOIN sample s ON s.id = p.sample_id
     WHERE a.struck = 0 AND a.spoiled IS NULL AND p.struck = 0 AND s.struck = 0 AND EXISTS
       (SELECT 1 FROM sieve_cut c WHERE c.analysis_id = a.id AND c.struck = 0 AND c.retained IS NULL))

-- name: analyses_made
SELECT p.id, a.id, s.number || '/' || p.number, s.mark, a.sieved_at
FROM sieve_analysis a JOIN portion p ON p.id = a.portion_id JOIN sample s ON s.id = p.sample_id
WHERE a.struck = 0 AND p.struck = 0 AND s.struck = 0 AND (a.spoiled IS NOT NULL OR NOT EXISTS
  (SELECT 1 FROM sieve_cut c WHERE c.analysis_id = a.id AND c.struck = 0 AND c.retained IS NULL))
ORDER BY a.id DESC LIMIT ?1 OFFSET ?2
