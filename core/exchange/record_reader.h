// SPDX-License-Identifier: GPL-3.0-or-later
// Reads the values of one object of a `records` text: figures as typed, people by initials, balances by name.
#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "core/base/clock.h"
#include "core/base/id.h"
#include "core/json/json_input.h"
#include "core/readings/entry.h"
#include "core/store/connection.h"

namespace prillbook::exchange {

class RecordReader {
 public:
  RecordReader(JsonInput input, store::Connection& connection, DecimalMark preferred)
      : input_(std::move(input)), connection_(connection), preferred_(preferred) {}

  JsonInput& input() { return input_; }
  Result<std::string> text(std::string_view key) { return input_.text(key); }
  Result<std::optional<std::string>> optional_text(std::string_view key) { return input_.optional_text(key); }
  // A figure as a person types it, "22 mg"; a bare number takes `unit`.
  Result<readings::Figure> figure(std::string_view key, Measure measure, std::string_view unit);
  Result<std::optional<Instant>> instant(std::string_view key);
  Result<std::optional<std::int64_t>> whole(std::string_view key);
  Result<PersonId> person(std::string_view key);    // none where absent
  Result<BalanceId> balance(std::string_view key);  // none where absent
  // The objects of a list; none where the key is absent.
  Result<std::vector<RecordReader>> list(std::string_view key);
  Result<std::optional<RecordReader>> object(std::string_view key);

  Result<void> finish() { return input_.finish(); }
  // The error of a command with the place in the text where its object stands.
  Error placed(Error error) const;

 private:
  JsonInput input_;
  store::Connection& connection_;
  DecimalMark preferred_;
};

}  // namespace prillbook::exchange
