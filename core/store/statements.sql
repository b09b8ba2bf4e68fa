-- SPDX-License-Identifier: GPL-3.0-or-later

-- name: integrity
PRAGMA integrity_check(100)

-- name: foreign_keys
PRAGMA foreign_key_check

-- name: schema
SELECT type, name, tbl_name, coalesce(sql, '') FROM sqlite_schema ORDER BY type, name

-- name: columns_of_table
SELECT name FROM pragma_table_info(?1) ORDER BY cid

-- name: application_id
PRAGMA application_id

-- name: write_application_id
PRAGMA application_id = 0x5072696C

-- name: user_version
PRAGMA user_version

-- name: schema_rows
SELECT rowid, type, name, tbl_name, coalesce(sql, '') FROM sqlite_schema ORDER BY rowid

-- name: write_schema_row
UPDATE sqlite_schema SET type = ?1, name = ?2, tbl_name = ?3, sql = ?4 WHERE rowid = ?5

-- name: schema_pages
SELECT pageno FROM dbstat WHERE name = 'sqlite_schema' ORDER BY pageno
