// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>

#include "core/base/clock.h"
#include "core/history/record.h"

namespace prillbook::custody {

// The instant that a field of a record holds; absent where it holds none. Errors: out_of_range where it is no time.
inline Result<std::optional<Instant>> instant_of(const history::Record& record, const history::Field& field) {
  const auto text = record.optional_text(field);
  if (!text) return std::optional<Instant>{};
  PRILLBOOK_ASSIGN(const Instant instant, parse_iso(*text));
  return std::optional(instant);
}

}  // namespace prillbook::custody
