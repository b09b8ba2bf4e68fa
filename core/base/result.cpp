// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/base/result.h"

namespace prillbook {

std::string_view contract_name(ErrorCode code) {
  switch (code) {
    case ErrorCode::unknown_key: return "unknown_key";
    case ErrorCode::missing_key: return "missing_key";
    case ErrorCode::wrong_type: return "wrong_type";
    case ErrorCode::not_finite: return "not_finite";
    case ErrorCode::out_of_range: return "out_of_range";
    case ErrorCode::conflict: return "conflict";
    case ErrorCode::inconsistent: return "inconsistent";
    case ErrorCode::too_small: return "too_small";
    case ErrorCode::malformed_json: return "malformed_json";
    case ErrorCode::unknown_verb: return "unknown_verb";
    case ErrorCode::not_a_notebook: return "not_a_notebook";
    case ErrorCode::newer_version: return "newer_version";
    case ErrorCode::locked: return "locked";
    case ErrorCode::read_only: return "read_only";
    case ErrorCode::disk_full: return "disk_full";
    case ErrorCode::damaged: return "damaged";
    case ErrorCode::not_found: return "not_found";
    case ErrorCode::ambiguous: return "ambiguous";
    case ErrorCode::not_a_number: return "wrong_type";
    case ErrorCode::unknown_unit: return "out_of_range";
    case ErrorCode::ambiguous_mark: return "ambiguous";
    case ErrorCode::overdrawn: return "inconsistent";
    case ErrorCode::already_exists: return "conflict";
    case ErrorCode::changed_since: return "conflict";
    case ErrorCode::cancelled: return "conflict";
  }
  return "damaged";
}

int exit_status(ErrorCode code) {
  switch (code) {
    case ErrorCode::unknown_verb: return 2;
    case ErrorCode::not_a_notebook:
    case ErrorCode::newer_version:
    case ErrorCode::locked:
    case ErrorCode::read_only:
    case ErrorCode::disk_full:
    case ErrorCode::damaged:
    case ErrorCode::not_found: return 3;
    default: return 1;
  }
}

}  // namespace prillbook
