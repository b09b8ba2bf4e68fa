// SPDX-License-Identifier: GPL-3.0-or-later
#include <cmath>

#include "app/batch/calc_verbs.h"
#include "core/units/units.h"

namespace prillbook::batch {
namespace {

Result<const Unit<GradeDimension>*> grade_unit(JsonInput& input, std::string_view key) {
  PRILLBOOK_ASSIGN(const std::string name, input.text(key));
  const Unit<GradeDimension>* unit = find_grade_unit(name);
  if (!unit) return input.error(ErrorCode::out_of_range, key, "'" + name + "' is no unit of grade");
  return unit;
}

}  // namespace

Result<Json> calc_convert(JsonInput& input) {
  PRILLBOOK_ASSIGN(const double value, input.number("value", not_negative));
  PRILLBOOK_ASSIGN(const auto* from, grade_unit(input, "from"));
  PRILLBOOK_ASSIGN(const auto* to, grade_unit(input, "to"));
  PRILLBOOK_TRY(input.finish());
  const double converted = convert(value, *from, *to);
  if (!std::isfinite(converted)) return input.error(ErrorCode::not_finite, "value", "the converted value is not finite");
  return Json{{"value", converted}};
}

}  // namespace prillbook::batch
