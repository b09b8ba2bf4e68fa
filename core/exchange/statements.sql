-- SPDX-License-Identifier: GPL-3.0-or-later

-- name: begin
BEGIN IMMEDIATE

-- name: defer_references
PRAGMA defer_foreign_keys = ON

-- name: commit
COMMIT
