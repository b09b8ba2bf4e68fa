// SPDX-License-Identifier: GPL-3.0-or-later
// Reads the JSON of a dump row by row; nothing but the row at hand is kept.
#pragma once

#include <cstdint>
#include <istream>
#include <string>
#include <utility>
#include <vector>

#include "core/base/result.h"
#include "core/store/value.h"

namespace prillbook::exchange {

// Keys and values of one row, in the order of the text; no key occurs twice.
using DumpRow = std::vector<std::pair<std::string, store::Value>>;

// What takes the parts of a dump, in this order.
class DumpTaker {
 public:
  virtual ~DumpTaker() = default;
  virtual Result<void> begin(std::int64_t schema_version) = 0;
  virtual Result<void> begin_table(const std::string& name) = 0;
  virtual Result<void> table_row(const DumpRow& row) = 0;
  virtual Result<void> content_row(const DumpRow& row) = 0;
  virtual Result<void> history_row(const DumpRow& row) = 0;
};

// Errors: malformed_json, unknown_key, missing_key, wrong_type, out_of_range, conflict (a key given twice), and what the
// taker says.
Result<void> read_dump(std::istream& dump, DumpTaker& taker);

}  // namespace prillbook::exchange
