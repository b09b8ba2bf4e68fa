-- SPDX-License-Identifier: GPL-3.0-or-later

-- name: next_number
SELECT coalesce(max(number), 0) + 1 FROM portion WHERE sample_id = ?1
