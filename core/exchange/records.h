// SPDX-License-Identifier: GPL-3.0-or-later
// The JSON format `records`: written by hand or by another program, read through the same commands as the window, so
// that every rule holds and every record has its history. Key by key in docs/records.md.
#pragma once

#include <string>
#include <string_view>

#include "core/base/result.h"
#include "core/history/journal.h"

namespace prillbook::exchange {

inline constexpr std::string_view records_format = "records";
inline constexpr std::int64_t records_format_version = 1;

struct Loaded {
  std::int64_t consignments = 0, samples = 0, portions = 0, pan_tests = 0, charges = 0, weighings = 0, sieve_analyses = 0;
};

// One change set: all or nothing. Errors: malformed_json, unknown_key, missing_key, wrong_type, and what the commands of
// the domains say; the field is the path of the key, "consignments[0].samples[2].mass_received".
Result<Loaded> load_records(history::Journal& journal, std::string_view text);

}  // namespace prillbook::exchange
