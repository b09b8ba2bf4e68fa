-- SPDX-License-Identifier: GPL-3.0-or-later

-- name: consignment_by_number
SELECT id FROM consignment WHERE number = ?1 AND struck = 0
