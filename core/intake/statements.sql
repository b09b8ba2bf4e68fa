-- SPDX-License-Identifier: GPL-3.0-or-later

-- name: matches_of_client
SELECT id, struck, heading, field, unit FROM column_match WHERE client_id = ?1 ORDER BY id

-- name: marks_of_consignment
SELECT mark FROM sample WHERE consignment_id = ?1 AND struck = 0
