// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/batch/grade_input.h"

#include <fmt/format.h>

namespace prillbook::batch {
namespace {

Result<std::optional<Mass>> optional_mass(JsonInput& input, std::string_view key, const Unit<MassDimension>& unit,
                                          Domain domain) {
  PRILLBOOK_ASSIGN(const std::optional<double> number, input.optional_number(key, domain));
  return number ? std::optional(Mass(*number, unit)) : std::nullopt;
}

Result<std::optional<Share>> optional_share(JsonInput& input, std::string_view key) {
  PRILLBOOK_ASSIGN(const std::optional<double> number, optional_part(input, key));
  return number ? std::optional(Share(*number, unit::percent)) : std::nullopt;
}

Result<std::optional<FinenessMethod>> optional_method(JsonInput& input) {
  PRILLBOOK_ASSIGN(const std::optional<std::string> name, input.optional_text("fineness_method"));
  if (!name) return std::optional<FinenessMethod>{};
  const std::optional<FinenessMethod> method = find_fineness_method(*name);
  if (!method)
    return input.error(ErrorCode::out_of_range, "fineness_method", fmt::format("'{}' is no way of finding a fineness", *name));
  return method;
}

Result<void> read_fineness(JsonInput& input, GradeInput& read) {
  PRILLBOOK_ASSIGN(const std::optional<double> value, input.optional_number("fineness_permil", thousandths));
  PRILLBOOK_ASSIGN(const std::optional<double> u, input.optional_number("u_fineness_permil", not_negative));
  PRILLBOOK_ASSIGN(const std::optional<FinenessMethod> method, optional_method(input));
  PRILLBOOK_ASSIGN(read.gold, optional_mass(input, "gold_mg", unit::milligram, not_negative));
  if (value) {
    read.fineness = FinenessReading{Fineness(*value, unit::permil), method, {}, {}, {}};
    if (u) read.fineness->u = Fineness(*u, unit::permil);
    return {};
  }
  if (read.gold && u)
    return input.error(ErrorCode::conflict, "u_fineness_permil", "parted gold has the uncertainty of its weighing");
  if (read.gold && method && *method != FinenessMethod::parted)
    return input.error(ErrorCode::conflict, "fineness_method", "gold_mg is parted gold");
  if (!read.gold && (u || method))
    return input.error(ErrorCode::missing_key, "fineness_permil", "the fineness itself is missing");
  return {};
}

Result<void> read_corrections(JsonInput& input, GradeInput& read) {
  const auto& mg = unit::milligram;
  PRILLBOOK_ASSIGN(read.slag, optional_mass(input, "slag_mg", mg, not_negative));
  PRILLBOOK_ASSIGN(read.slag_gold, optional_mass(input, "slag_gold_mg", mg, not_negative));
  PRILLBOOK_ASSIGN(read.cupel, optional_mass(input, "cupel_mg", mg, not_negative));
  PRILLBOOK_ASSIGN(read.cupel_gold, optional_mass(input, "cupel_gold_mg", mg, not_negative));
  PRILLBOOK_ASSIGN(read.blank, optional_mass(input, "blank_mg", mg, not_negative));
  PRILLBOOK_ASSIGN(read.collector, optional_mass(input, "collector_mg", mg, not_negative));
  PRILLBOOK_ASSIGN(read.gold_loss, optional_share(input, "gold_loss_pct"));
  PRILLBOOK_ASSIGN(read.silver_loss, optional_share(input, "silver_loss_pct"));
  PRILLBOOK_ASSIGN(read.moisture, optional_share(input, "moisture_pct"));
  return {};
}

}  // namespace

Result<std::optional<double>> optional_part(JsonInput& input, std::string_view key) {
  PRILLBOOK_ASSIGN(const std::optional<double> number, input.optional_number(key, percentage));
  if (number && *number >= 100)
    return input.error(ErrorCode::out_of_range, key, fmt::format("{}: it must be below 100", input.path_of(key)));
  return number;
}

Result<GradeInput> read_grade_input(JsonInput& input) {
  GradeInput read;
  PRILLBOOK_ASSIGN(const double portion, input.number("portion_g", positive));
  read.portion = Mass(portion, unit::gram);
  PRILLBOOK_ASSIGN(const std::vector<double> beads, input.number_or_list("bead_mg", not_negative));
  for (const double bead : beads) read.bead.emplace_back(bead, unit::milligram);
  PRILLBOOK_ASSIGN(read.portion_step, optional_mass(input, "portion_step_g", unit::gram, positive));
  PRILLBOOK_ASSIGN(read.balance_step, optional_mass(input, "balance_step_mg", unit::milligram, positive));
  PRILLBOOK_ASSIGN(read.repeat_sd, optional_mass(input, "repeat_sd_mg", unit::milligram, not_negative));
  PRILLBOOK_ASSIGN(read.tared, input.flag("tared", false));
  PRILLBOOK_TRY(read_fineness(input, read));
  PRILLBOOK_TRY(read_corrections(input, read));
  return read;
}

Error under(const JsonInput& input, Error error) {
  error.field = input.path_of(error.field);
  error.detail = fmt::format("{}: {}", error.field, error.detail);
  return error;
}

Result<GradeResult> graded(const JsonInput& input, const GradeInput& read) {
  Result<GradeResult> result = bead_to_grade(read);
  if (!result) return under(input, result.error());
  return result;
}

void put_grade(Json& output, const std::string& name, Grade grade) {
  output[name + "_g_t"] = grade.in(unit::gram_per_tonne);
  output[name + "_ozt_st"] = grade.in(unit::ounce_per_short_ton);
  output[name + "_ozt_lt"] = grade.in(unit::ounce_per_long_ton);
}

}  // namespace prillbook::batch
