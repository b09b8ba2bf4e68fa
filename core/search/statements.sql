-- SPDX-License-Identifier: GPL-3.0-or-later

-- name: samples_by_number
SELECT f.rowid, f.number, f.client, f.mark, f.place
FROM sample s JOIN search f ON f.rowid = s.id
WHERE s.number COLLATE NOCASE >= ?1 AND s.number COLLATE NOCASE < ?2 AND s.struck = 0
ORDER BY s.number COLLATE NOCASE LIMIT ?3

-- name: consignments_by_number
SELECT f.rowid, f.number, f.client, f.mark, f.place
FROM consignment c JOIN search f ON f.rowid = 1099511627776 + c.id
WHERE c.number COLLATE NOCASE >= ?1 AND c.number COLLATE NOCASE < ?2 AND c.struck = 0
ORDER BY c.number COLLATE NOCASE LIMIT ?3

-- name: samples_by_words
SELECT rowid FROM search WHERE search MATCH ?1 AND rowid < 1099511627776 ORDER BY rowid DESC LIMIT ?2

-- name: consignments_by_words
SELECT rowid FROM search WHERE search MATCH ?1 AND rowid >= 1099511627776 ORDER BY rowid DESC LIMIT ?2

-- name: next_word
SELECT term FROM search_word WHERE term >= ?1 LIMIT 1

-- name: take_word
INSERT OR REPLACE INTO search (rowid, mark) VALUES (1, ?1)

-- name: words_taken
SELECT term FROM search_word

-- name: row
SELECT rowid, number, client, mark, place FROM search WHERE rowid = ?1
