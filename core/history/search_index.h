// SPDX-License-Identifier: GPL-3.0-or-later
// The table `search`: the words of samples and consignments, ready to be found. It is kept here, under every command:
// the journal writes it in the transaction of each gesture, so that none can forget it.
#pragma once

#include <vector>

#include "core/base/result.h"
#include "core/history/journal.h"
#include "core/store/connection.h"
#include "core/store/structure.h"

namespace prillbook::history {

// Rows of samples have the id of the sample; rows of consignments begin here.
inline constexpr std::int64_t first_consignment_row = std::int64_t{1} << 40;

// False for a file of a schema before the table.
Result<bool> has_search_index(store::Connection& connection);

// Writes again the rows that these changes touch: of a sample its own, of a consignment and a client also those of all
// their samples. Inside the transaction that made the changes.
Result<void> update_search_index(store::Connection& connection, const std::vector<Change>& changes);

// Fills the table from the records, where the file has one. Inside a transaction, or as one by itself.
Result<void> rebuild_search_index(store::Connection& connection);

// Every row against its record, both ways. Faults are told as "search 12"; a rebuild mends them.
Result<void> verify_search_index(store::Connection& connection, store::FaultList& faults);

}  // namespace prillbook::history
