// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/batch/output.h"

#include <fmt/format.h>

#include <cmath>

namespace prillbook::batch {
namespace {

Result<void> check(const Json& value, const std::string& path) {
  if (value.is_number_float() && !std::isfinite(value.get<double>()))
    return Error{ErrorCode::not_finite, path, fmt::format("{} is too large to be expressed", path), {}};
  if (value.is_object())
    for (const auto& [key, item] : value.items())
      PRILLBOOK_TRY(check(item, path.empty() ? key : fmt::format("{}.{}", path, key)));
  if (value.is_array())
    for (std::size_t i = 0; i < value.size(); ++i) PRILLBOOK_TRY(check(value[i], fmt::format("{}[{}]", path, i)));
  return {};
}

}  // namespace

Result<Json> all_finite(Json value) {
  PRILLBOOK_TRY(check(value, ""));
  return value;
}

}  // namespace prillbook::batch
