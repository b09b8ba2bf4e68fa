// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/batch/calc_verbs.h"
#include "app/batch/grade_input.h"
#include "core/assay/moisture.h"

namespace prillbook::batch {

Result<Json> calc_moisture(JsonInput& input) {
  PRILLBOOK_ASSIGN(const double wet, input.number("wet_g", positive));
  PRILLBOOK_ASSIGN(const double dry, input.number("dry_g", positive));
  PRILLBOOK_TRY(input.finish());
  const Result<Moisture> result = moisture(Mass(wet, unit::gram), Mass(dry, unit::gram));
  if (!result) return under(input, result.error());
  return Json{{"moisture_wet_basis_pct", result->wet_basis.in(unit::percent)},
              {"moisture_dry_basis_pct", result->dry_basis.in(unit::percent)}};
}

}  // namespace prillbook::batch
