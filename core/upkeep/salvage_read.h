// SPDX-License-Identifier: GPL-3.0-or-later
// Reading on past what does not read, for a salvage.
#pragma once

#include <map>
#include <set>
#include <string>
#include <vector>

#include "core/base/id.h"
#include "core/history/catalogue.h"
#include "core/history/chain.h"
#include "core/store/connection.h"
#include "core/upkeep/salvage.h"

namespace prillbook::upkeep {

using Cells = std::vector<store::Value>;  // by the fields of the table
using Rows = std::map<RecordId, Cells>;

struct Wreck {
  std::vector<history::HistoryRow> entries;  // that can be believed, oldest first
  std::int64_t lost_entries = 0;
  std::map<history::Entity, Rows> tables;
  std::map<std::string, std::string> contents;  // by hash, each proven by it
};

// Tells `left` of everything that does not read.
class WreckReader {
 public:
  WreckReader(store::Connection& wreck, const SalvageOptions& options, Salvaged& report)
      : wreck_(wreck), options_(options), report_(report) {}

  Result<Wreck> read(const std::map<history::Entity, std::vector<const history::Field*>>& fields);

 private:
  Result<std::vector<history::HistoryRow>> read_history();
  void believe(std::vector<history::HistoryRow> rows, Wreck& wreck);
  Result<Rows> read_table(const history::EntitySpec& entity, const std::vector<const history::Field*>& fields);
  Result<void> read_contents(Wreck& wreck);
  bool stopped() const { return options_.cancellation && options_.cancellation->requested(); }

  store::Connection& wreck_;
  const SalvageOptions& options_;
  Salvaged& report_;
  bool damaged_end_ = false;  // of the history
};

// Notes one thing that was lost or settled.
void tell(Salvaged& report, std::string where, std::string what);

}  // namespace prillbook::upkeep
