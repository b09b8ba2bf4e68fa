// SPDX-License-Identifier: GPL-3.0-or-later
// History rows out of the file and into it. Only the journal and a restore write them.
#pragma once

#include <functional>
#include <vector>

#include "core/base/id.h"
#include "core/base/result.h"
#include "core/history/catalogue.h"
#include "core/history/chain.h"
#include "core/store/connection.h"

namespace prillbook::history {

// A row of the statements that give all columns of the history in the order of HistoryRow. A hash that is none of 32
// bytes reads as all zero.
HistoryRow read_history_row(const store::Row& row);

// Calls `reader` for every row, oldest first, until it gives an error.
Result<void> each_history_row(store::Connection& connection, const std::function<Result<void>(const HistoryRow&)>& reader);

// Everything that happened to one record, oldest first.
Result<std::vector<HistoryRow>> record_history(store::Connection& connection, Entity entity, RecordId record);

// Writes a row as it is, its hash included. Errors: inconsistent (the id is taken), disk_full, read_only.
Result<void> append_history_row(store::Connection& connection, const HistoryRow& row);

// The fields of a record that the table in this file has: a file of an older schema lacks the newer ones.
// Errors: inconsistent where the table has a column that the catalogue does not know.
Result<std::vector<const Field*>> held_fields(store::Connection& connection, const EntitySpec& entity);

}  // namespace prillbook::history
