// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/batch/calc_verbs.h"
#include "app/batch/grade_input.h"
#include "core/assay/inquart.h"

namespace prillbook::batch {

Result<Json> calc_inquart(JsonInput& input) {
  PRILLBOOK_ASSIGN(const double gold, input.number("gold_mg", not_negative));
  PRILLBOOK_ASSIGN(const double silver, input.number("silver_mg", not_negative));
  PRILLBOOK_ASSIGN(const double ratio, input.number("ratio", positive));
  PRILLBOOK_TRY(input.finish());
  const Result<Mass> added = silver_to_add(Mass(gold, unit::milligram), Mass(silver, unit::milligram), ratio);
  if (!added) return under(input, added.error());
  return Json{{"silver_to_add_mg", added->in(unit::milligram)}};
}

}  // namespace prillbook::batch
