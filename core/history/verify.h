// SPDX-License-Identifier: GPL-3.0-or-later
// Does the history hang together, and do the tables hold what it says? Rows are read in order and let go; memory does
// not grow with the notebook.
#pragma once

#include <cstdint>

#include "core/base/progress.h"
#include "core/base/result.h"
#include "core/history/chain.h"
#include "core/store/connection.h"
#include "core/store/structure.h"

namespace prillbook::history {

struct ChainEnd {
  std::int64_t rows = 0;
  Hash head{};  // of the last row; all zero without history
};

struct VerifyControls {
  Progress progress;  // history rows
  const Cancellation* cancellation = nullptr;
};

// Ids from 1 without a gap, every hash, change sets in order, entity and field codes that the catalogue knows.
// Errors: cancelled and faults of the disk; damage goes into `faults`.
Result<ChainEnd> verify_chain(store::Connection& connection, store::FaultList& faults, const VerifyControls& controls = {});

// Builds every record again from its history rows and compares it with every column of its table, both ways: rows
// without history, history without rows. To be run inside Connection::snapshot. Gives the number of records.
Result<std::int64_t> verify_replay(store::Connection& connection, store::FaultList& faults, const VerifyControls& controls = {});

}  // namespace prillbook::history
