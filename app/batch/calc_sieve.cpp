// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/batch/calc_verbs.h"
#include "app/batch/output.h"
#include "core/sieving/analysis.h"
#include "core/sieving/fits.h"

namespace prillbook::batch {
namespace {

Result<SieveAnalysis> read(JsonInput& input) {
  SieveAnalysis analysis;
  PRILLBOOK_ASSIGN(const double portion, input.number("portion_g", positive));
  PRILLBOOK_ASSIGN(std::vector<JsonInput> cuts, input.children("cuts"));
  for (JsonInput& cut : cuts) {
    PRILLBOOK_ASSIGN(const double opening, cut.number("opening_um", positive));
    PRILLBOOK_ASSIGN(const double retained, cut.number("retained_g", not_negative));
    PRILLBOOK_TRY(cut.finish());
    analysis.cuts.push_back({Opening(opening, unit::micrometre), Mass(retained, unit::gram)});
  }
  PRILLBOOK_ASSIGN(const double pan, input.number("pan_g", not_negative));
  PRILLBOOK_ASSIGN(const auto series, input.optional_text("series"));
  PRILLBOOK_ASSIGN(const double max_loss, input.number_or("max_loss_pct", 0.3, percentage));
  PRILLBOOK_ASSIGN(const auto step, input.optional_number("step_g", positive));
  PRILLBOOK_TRY(input.finish());
  analysis.portion = Mass(portion, unit::gram);
  analysis.pan = Mass(pan, unit::gram);
  analysis.max_loss = Share(max_loss, unit::percent);
  if (step) analysis.step = Mass(*step, unit::gram);
  if (series) analysis.series = find_sieve_series(*series);
  if (series && !analysis.series) return input.error(ErrorCode::out_of_range, "series", "'" + *series + "' is no sieve series");
  return analysis;
}

Json rows_of(const SieveResult& result) {
  Json rows = Json::array();
  for (const SieveRow& row : result.rows)
    rows.push_back({{"opening_um", row.opening.in(unit::micrometre)},
                    {"retained_pct", row.retained_pct},
                    {"cumulative_retained_pct", row.cumulative_retained_pct},
                    {"passing_pct", row.passing_pct}});
  return rows;
}

void add_law(Json& output, const char* key, const char* slope, const char* size, const std::optional<SizeLaw>& law) {
  if (law) output[key] = Json{{slope, law->slope}, {size, law->size.in(unit::micrometre)}, {"r2", law->r2}};
}

}  // namespace

Result<Json> calc_sieve(JsonInput& input) {
  PRILLBOOK_ASSIGN(const SieveAnalysis analysis, read(input));
  PRILLBOOK_ASSIGN(const SieveResult result, analyse(analysis));
  Json output{{"total_g", result.total.in(unit::gram)}, {"loss_pct", result.loss_pct}, {"pan_pct", result.pan_pct}};
  output["rows"] = rows_of(result);
  if (result.p80.size) output["p80_um"] = result.p80.size->in(unit::micrometre);
  if (result.p50.size) output["p50_um"] = result.p50.size->in(unit::micrometre);
  output["convention"] = "log_size_linear_passing";
  output["p80_status"] = contract_name(result.p80.status);
  add_law(output, "gaudin_schuhmann", "m", "k_um", gaudin_schuhmann(result.rows));
  add_law(output, "rosin_rammler", "n", "size_um", rosin_rammler(result.rows));
  output["warnings"] = Json::array();
  for (const SieveWarning warning : result.warnings) output["warnings"].push_back(contract_name(warning));
  return all_finite(std::move(output));
}

}  // namespace prillbook::batch
