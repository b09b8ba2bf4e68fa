// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/assay/grade.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "core/assay/grade_check.h"
#include "core/assay/traced.h"

namespace prillbook {
namespace {

enum Measurand : std::size_t {
  portion,
  bead,
  fineness,
  gold,
  slag,
  slag_gold,
  cupel,
  cupel_gold,
  collector,
  collector_loss,
  measurands
};
using Number = Traced<measurands>;
// An uncertainty of one measurand, in grams, or as a fraction for fineness and collector_loss.
using MeasurandPart = std::pair<Measurand, Contribution>;

enum class GoldKnown { no, by_fineness, by_mass };

constexpr double grams(Mass mass) { return mass.in(unit::gram); }
double fraction(const std::optional<Share>& share) { return share ? share->in(unit::percent) / 100 : 0; }
Number mass_of(const std::optional<Mass>& mass, Measurand measurand) {
  return mass ? Number::variable(grams(*mass), measurand) : Number();
}

// What the formulas need beside the input.
struct Bench {
  const GradeInput& input;
  double bead_mean = 0;
  bool none_seen = false;
  GoldKnown gold_known = GoldKnown::no;
  double gold_mass = 0;  // by_mass
  std::vector<MeasurandPart> parts;
};

// One weighing: a reading on a zeroed balance is a rectangle of one step, a tared one the difference of two.
void add_weighing(std::vector<MeasurandPart>& parts, Measurand measurand, UncertaintySource source, std::optional<Mass> step,
                  bool tared) {
  if (!step) return;
  const double width = grams(*step);
  const Contribution part = tared ? normal_part(source, width / std::sqrt(6.0)) : rectangle_part(source, -width / 2, width / 2);
  parts.emplace_back(measurand, part);
}

void add_single(std::vector<MeasurandPart>& parts, const GradeInput& input, Measurand measurand, UncertaintySource source) {
  add_weighing(parts, measurand, source, input.balance_step, input.tared);
  if (input.repeat_sd) parts.emplace_back(measurand, normal_part(source, grams(*input.repeat_sd), input.repeat_dof));
}

void add_bead(std::vector<MeasurandPart>& parts, const GradeInput& input, const RepeatStatistics& readings) {
  add_weighing(parts, bead, UncertaintySource::bead_step, input.balance_step, input.tared);
  const double n = readings.n;
  if (input.repeat_sd)
    parts.emplace_back(bead,
                       normal_part(UncertaintySource::bead_repeats, grams(*input.repeat_sd) / std::sqrt(n), input.repeat_dof));
  // Readings of 0 that agree say nothing of what was too small to see.
  else if (readings.sd && readings.mean > Mass())
    parts.emplace_back(bead, normal_part(UncertaintySource::bead_repeats, grams(*readings.sd) / std::sqrt(n), n - 1));
}

void add_other_masses(Bench& bench) {
  const GradeInput& input = bench.input;
  add_weighing(bench.parts, portion, UncertaintySource::portion_step, input.portion_step, input.tared);
  if (bench.gold_known == GoldKnown::by_mass) add_single(bench.parts, input, gold, UncertaintySource::parted_gold);
  if (input.slag) add_single(bench.parts, input, slag, UncertaintySource::slag);
  if (input.slag_gold) add_single(bench.parts, input, slag_gold, UncertaintySource::slag);
  if (input.cupel) add_single(bench.parts, input, cupel, UncertaintySource::cupel);
  if (input.cupel_gold) add_single(bench.parts, input, cupel_gold, UncertaintySource::cupel);
  if (input.collector) add_single(bench.parts, input, collector, UncertaintySource::collector);
  // The collector's own loss joins an uncertainty that was given; alone it would pass for one.
  if (input.collector && !bench.parts.empty()) {
    const double limit = collector_loss_limit.in(unit::percent) / 100, half = collector_loss_half_range.in(unit::percent) / 100;
    bench.parts.emplace_back(collector_loss, input.silver_loss ? rectangle_part(UncertaintySource::collector_loss, -half, half)
                                                               : rectangle_part(UncertaintySource::collector_loss, 0, limit));
  }
}

// Settles how the gold is known. A parted fineness is the quotient of two weighings, gold over bead: with a balance known
// it goes back to the gold mass, so that the bead's uncertainty is not counted twice.
Result<void> settle_gold(Bench& bench) {
  const GradeInput& input = bench.input;
  if (input.gold) {
    bench.gold_known = GoldKnown::by_mass;
    bench.gold_mass = grams(*input.gold);
    return {};
  }
  if (!input.fineness) return {};
  const bool holds_collector = input.collector && *input.collector > Mass();
  PRILLBOOK_ASSIGN(const std::optional<Contribution> part, fineness_part(*input.fineness, holds_collector));
  bench.gold_known = GoldKnown::by_fineness;
  if (part) {
    bench.parts.emplace_back(fineness, scaled(*part, 1e-3));
  } else if (input.fineness->method == FinenessMethod::parted && (input.balance_step || input.repeat_sd)) {
    bench.gold_known = GoldKnown::by_mass;
    bench.gold_mass = bench.bead_mean * input.fineness->value.in(unit::permil) / 1000;
  }
  return {};
}

Result<void> check_against_each_other(const Bench& bench) {
  const GradeInput& input = bench.input;
  const double tolerance = input.balance_step ? grams(*input.balance_step) * (1 + 1e-9) : 0;
  if (input.gold && bench.gold_mass > bench.bead_mean * (1 + 1e-12) + tolerance)
    return Error{ErrorCode::inconsistent, "gold_mg", "more parted gold than bead", {}};
  if (bench.none_seen && input.collector && *input.collector > Mass())
    return Error{ErrorCode::inconsistent, "bead_mg", "collector silver went in and no bead came out: the bead is lost", {}};
  return {};
}

// Masses of metal in grams, before the division by the portion.
struct Metal {
  Number total;
  std::optional<Number> gold, silver;
  Number gold_limit;  // were the whole bead gold
};

Metal metal_of(const Bench& bench) {
  const GradeInput& input = bench.input;
  const Number bead_mass = Number::variable(bench.bead_mean, bead);
  const Number from_slag = mass_of(input.slag, slag), from_cupel = mass_of(input.cupel, cupel);
  const Number recovered_gold = mass_of(input.slag_gold, slag_gold) + mass_of(input.cupel_gold, cupel_gold);
  const Number put_in = mass_of(input.collector, collector) * (Number(1) - Number::variable(0, collector_loss)) +
                        Number(input.blank ? grams(*input.blank) : 0);
  const Number recovered_silver = from_slag + from_cupel - recovered_gold - put_in;
  const Number gold_kept(1 - fraction(input.gold_loss)), silver_kept(1 - fraction(input.silver_loss));

  Metal metal;
  metal.total = bead_mass + from_slag + from_cupel - put_in;
  metal.gold_limit = bead_mass / gold_kept + recovered_gold;
  if (bench.none_seen) {  // what was not seen may be either metal
    metal.gold = metal.gold_limit;
    if (bench.gold_known != GoldKnown::no) metal.silver = bead_mass / silver_kept + recovered_silver;
  } else if (bench.gold_known != GoldKnown::no) {
    const Number bead_gold = bench.gold_known == GoldKnown::by_mass
                                 ? Number::variable(bench.gold_mass, gold)
                                 : bead_mass * Number::variable(input.fineness->value.in(unit::permil) / 1000, fineness);
    metal.gold = bead_gold / gold_kept + recovered_gold;
    metal.silver = (bead_mass - bead_gold) / silver_kept + recovered_silver;
    metal.total = *metal.gold + *metal.silver;
  }
  return metal;
}

MeasuredGrade per_tonne(const Number& metal, const Bench& bench) {
  const Number dry = Number::variable(grams(bench.input.portion), portion) * Number(1 - fraction(bench.input.moisture));
  const Number value = metal / dry * Number(1e6);
  std::vector<Contribution> parts;
  for (const auto& [measurand, part] : bench.parts)
    if (value.slope[measurand] != 0) parts.push_back(scaled(part, value.slope[measurand]));
  return measured(Grade(value.value, unit::gram_per_tonne), std::move(parts));
}

void set_value(MeasuredGrade& grade, Grade value) { grade = measured(value, std::move(grade.parts)); }

// All corrected metal; where the silver lies below the blank there is none of it in the total.
void fill_bead(GradeResult& result, const Metal& metal, const Bench& bench) {
  result.bead = per_tonne(metal.total, bench);
  const bool too_low = metal.silver ? metal.silver->value < 0 : metal.total.value < (metal.gold ? metal.gold->value : 0);
  if (too_low) set_value(result.bead, metal.gold ? per_tonne(*metal.gold, bench).value : Grade());
}

// Gold, its upper limit not above that of the bead.
void fill_gold(GradeResult& result, const Metal& metal, const Bench& bench) {
  if (!metal.gold) return;
  result.gold = per_tonne(*metal.gold, bench);
  if (!result.gold->hi) return;
  const MeasuredGrade limit = per_tonne(metal.gold_limit, bench);
  const Grade highest = std::min(limit.hi.value_or(limit.value), result.bead.hi.value_or(result.bead.value));
  result.gold->hi = std::max(std::min(*result.gold->hi, highest), result.gold->value);
}

void fill_recovered(GradeResult& result, const Bench& bench) {
  const GradeInput& input = bench.input;
  if (input.slag || input.cupel) result.recovered = per_tonne(mass_of(input.slag, slag) + mass_of(input.cupel, cupel), bench);
  if (input.slag_gold || input.cupel_gold)
    result.recovered_gold = per_tonne(mass_of(input.slag_gold, slag_gold) + mass_of(input.cupel_gold, cupel_gold), bench);
}

SilverStatus silver_status(const Metal& metal, const GradeInput& input) {
  const double silver = metal.silver->value;
  if (input.collector && *input.collector > Mass()) {
    const Share limit = input.silver_loss ? collector_loss_half_range : collector_loss_limit;
    if (!(silver > grams(*input.collector) * limit.in(unit::percent) / 100)) return SilverStatus::not_determined;
  }
  const double noise = 1e-12 * (std::abs(metal.total.value) + (input.blank ? grams(*input.blank) : 0));
  if (input.blank && *input.blank > Mass()) return silver > noise ? SilverStatus::by_difference : SilverStatus::not_above_blank;
  return silver >= -noise ? SilverStatus::by_difference : SilverStatus::not_above_blank;
}

void fill_silver(GradeResult& result, const Metal& metal, const Bench& bench) {
  if (!metal.silver) return;
  result.silver_status = silver_status(metal, bench.input);
  MeasuredGrade silver = per_tonne(*metal.silver, bench);
  const double estimate = silver.g_t();
  if (estimate < 0) set_value(silver, Grade());
  if (result.silver_status == SilverStatus::by_difference)
    result.silver = silver;
  else if (silver.hi)
    result.silver_hi = silver.hi;
}

bool is_finite(const MeasuredGrade& grade) {
  return std::isfinite(grade.g_t()) && (!grade.spread || (std::isfinite(grade.spread->u) && std::isfinite(grade.spread->lo) &&
                                                          std::isfinite(grade.spread->hi)));
}

}  // namespace

std::string_view status_name(SilverStatus status) {
  switch (status) {
    case SilverStatus::by_difference: return "by_difference";
    case SilverStatus::not_above_blank: return "not_above_blank";
    case SilverStatus::not_determined: return "not_determined";
  }
  return "";
}

MeasuredGrade measured(Grade value, std::vector<Contribution> parts) {
  MeasuredGrade result{value, std::move(parts), {}, {}, {}};
  if (result.parts.empty()) return result;
  result.spread = spread(result.g_t(), result.parts);
  result.lo = Grade(std::clamp(result.spread->lo, 0.0, std::max(0.0, result.g_t())), unit::gram_per_tonne);
  result.hi = Grade(std::max(result.spread->hi, result.g_t()), unit::gram_per_tonne);
  return result;
}

std::vector<BudgetLine> budget_of(std::span<const Contribution> parts) {
  const double u = combined_u(parts);
  std::vector<BudgetLine> lines;
  for (const Contribution& part : parts) {
    if (!(part.u > 0)) continue;
    const double share = 100 * (part.u / u) * (part.u / u);
    const auto same =
        std::find_if(lines.begin(), lines.end(), [&](const BudgetLine& line) { return line.source == part.source; });
    if (same == lines.end())
      lines.push_back({part.source, share});
    else
      same->share_pct += share;
  }
  std::stable_sort(lines.begin(), lines.end(),
                   [](const BudgetLine& a, const BudgetLine& b) { return a.share_pct > b.share_pct; });
  return lines;
}

Result<GradeResult> bead_to_grade(const GradeInput& input) {
  PRILLBOOK_TRY(check_grade_input(input));
  GradeResult result;
  result.dry_portion = input.portion * (1 - fraction(input.moisture));
  result.bead_readings = repeat_statistics(input.bead);
  result.none_seen = result.bead_readings.mean == Mass();

  Bench bench{input, grams(result.bead_readings.mean), result.none_seen, GoldKnown::no, 0, {}};
  PRILLBOOK_TRY(settle_gold(bench));
  result.fineness_known = bench.gold_known != GoldKnown::no;
  PRILLBOOK_TRY(check_against_each_other(bench));
  add_bead(bench.parts, input, result.bead_readings);
  add_other_masses(bench);
  if (input.bead_doubt_unknown) bench.parts.clear();

  const Metal metal = metal_of(bench);
  if (metal.total.value > grams(result.dry_portion) || (metal.gold && metal.gold->value > grams(result.dry_portion)))
    return Error{ErrorCode::inconsistent, "bead_mg", "more metal than the dry portion weighs", {}};
  fill_bead(result, metal, bench);
  fill_gold(result, metal, bench);
  fill_silver(result, metal, bench);
  fill_recovered(result, bench);
  result.budget = budget_of(result.gold && !result.gold->parts.empty() ? result.gold->parts : result.bead.parts);
  if (!is_finite(result.bead) || (result.gold && !is_finite(*result.gold)) || (result.silver && !is_finite(*result.silver)))
    return Error{ErrorCode::not_finite, "bead_mg", "the result is not finite", {}};
  return result;
}

}  // namespace prillbook
