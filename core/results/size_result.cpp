// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/results/size_result.h"

#include <algorithm>
#include <cmath>

#include "core/assay/mean_of_charges.h"
#include "core/units/units.h"

namespace prillbook::results {
namespace {

using sieves::Analysis;
using sieves::Cut;

Mass weighed(const readings::Reading& reading) { return reading.state == readings::State::measured ? reading.mass() : Mass(); }

void take_step(const readings::Reading& reading, std::optional<Mass>& step) {
  if (!reading.step_g || *reading.step_g <= 0) return;
  const Mass own(*reading.step_g, unit::gram);
  if (!step || own > *step) step = own;
}

std::vector<std::string> missing(const portions::Portion* portion, const Analysis& analysis, DecimalMark mark) {
  std::vector<std::string> words;
  if (!portion || !portion->mass) words.push_back("the portion");
  for (const Cut& cut : analysis.cuts)
    if (!cut.retained) words.push_back(cut.opening ? opening_in_words(*cut.opening, mark) : "the pan");
  return words;
}

std::vector<Overload> overloads_of(const SampleRecord& record, const Analysis& analysis) {
  std::vector<Overload> found;
  const Opening usual(record.settings.usual_sieve_diameter_mm, unit::millimetre);
  for (const Cut& cut : analysis.cuts) {
    if (!cut.opening || !cut.retained) continue;
    const Opening diameter = cut.diameter && cut.diameter->value > 0 ? cut.diameter->opening() : usual;
    const Mass limit = overload_limit(*cut.opening, sieving_area_m2(diameter));
    if (weighed(*cut.retained) > limit) found.push_back({cut.id, *cut.opening, weighed(*cut.retained), limit});
  }
  return found;
}

// The mean over the tests made on a fraction or on what was cut from it.
std::optional<MeasuredGrade> gold_of(const SampleRecord& record, PortionId fraction, const std::vector<TestResult>& tests) {
  std::vector<ChargeGrade> charges;
  for (const TestResult& test : tests) {
    const portions::Portion* of = record.fraction_of(test.portion);
    if (!of || of->id != fraction || test.state != TestState::done || !test.grade->gold) continue;
    charges.push_back({test.label, ChargeState::valid, {}, test.grade->gold});
  }
  const auto mean = mean_of_charges(charges);
  return mean ? mean->mean : std::nullopt;
}

void add_metal(const SampleRecord& record, const Analysis& analysis, const std::vector<TestResult>& tests, SizeResult& result) {
  std::vector<FractionMetal> metal;
  bool any = false, complete = true;
  double held = 0;
  for (std::size_t i = 0; i < analysis.cuts.size(); ++i) {
    const Cut& cut = analysis.cuts[i];
    FractionMetal one{cut.id, cut.fraction, fraction_in_words(analysis, i, record.settings.decimal_mark), 0, {}, {}};
    one.mass_pct = 100 * (weighed(*cut.retained) / result.curve->total);
    if (cut.fraction) one.gold = gold_of(record, cut.fraction, tests);
    any = any || one.gold;
    if (one.mass_pct > 0) complete = complete && one.gold;
    if (one.gold) held += one.mass_pct * one.gold->g_t();
    metal.push_back(std::move(one));
  }
  if (!any) return;
  result.metal = std::move(metal);
  result.metal_complete = complete && held > 0;
  if (!result.metal_complete) return;
  for (std::size_t i = 0; i < result.metal.size(); ++i) {
    FractionMetal& one = result.metal[i];
    one.gold_pct = one.gold ? 100 * one.mass_pct * one.gold->g_t() / held : 0;
    if (!result.richest || *one.gold_pct > *result.metal[*result.richest].gold_pct) result.richest = i;
  }
  result.built_up = Grade(held / 100, unit::gram_per_tonne);
}

Opening nearest(SieveSeries series, Opening wanted) {
  Opening best;
  double least = 0;
  for (const Opening size : nominal_openings(series)) {
    const double distance = std::abs(std::log(size / wanted));
    if (best > Opening() && distance >= least) continue;
    best = size;
    least = distance;
  }
  return best;
}

std::optional<Law> judged(const std::optional<SizeLaw>& law, double (*passing)(const SizeLaw&, Opening),
                          const std::vector<SieveRow>& rows) {
  if (!law) return std::nullopt;
  return Law{*law, judge(*law, passing, rows)};
}

void finish(const SampleRecord& record, const Analysis& analysis, const std::vector<TestResult>& tests, SizeResult& result) {
  const SieveAnalysis input = *sieve_input(record, analysis);
  auto curve = analyse(input);
  if (!curve) {
    result.state = SizeState::refused;
    result.error = curve.error();
    return;
  }
  result.state = SizeState::done;
  result.curve = *std::move(curve);
  result.loss_limit_pct = loss_limit_pct(input);
  result.gaudin_schuhmann = judged(gaudin_schuhmann(result.curve->rows), gaudin_schuhmann_passing, result.curve->rows);
  result.rosin_rammler = judged(rosin_rammler(result.curve->rows), rosin_rammler_passing, result.curve->rows);
  add_metal(record, analysis, tests, result);
}

}  // namespace

std::optional<SieveAnalysis> sieve_input(const SampleRecord& record, const Analysis& analysis) {
  const portions::Portion* portion = record.portion(analysis.portion);
  if (!portion || !portion->mass) return std::nullopt;
  SieveAnalysis input;
  input.portion = weighed(*portion->mass);
  input.max_loss = Share(record.settings.sieve_loss_limit_pct, unit::percent);
  take_step(*portion->mass, input.step);
  for (const Cut& cut : analysis.cuts) {
    if (!cut.retained) return std::nullopt;
    take_step(*cut.retained, input.step);
    if (cut.opening)
      input.cuts.push_back({*cut.opening, weighed(*cut.retained)});
    else
      input.pan += weighed(*cut.retained);
  }
  return input;
}

std::vector<SieveRow> rows_so_far(const SampleRecord& record, const Analysis& analysis) {
  const portions::Portion* portion = record.portion(analysis.portion);
  if (!portion || !portion->mass || !(weighed(*portion->mass) > Mass())) return {};
  std::vector<SieveCut> cuts;
  for (const Cut& cut : analysis.cuts) {
    if (!cut.retained) break;  // what lies above a sieve must be known for its passing
    if (cut.opening) cuts.push_back({*cut.opening, weighed(*cut.retained)});
  }
  return prillbook::rows_so_far(weighed(*portion->mass), std::move(cuts));
}

SizeResult size_result(const SampleRecord& record, const Analysis& analysis, const std::vector<TestResult>& of_fractions) {
  SizeResult result;
  result.analysis = analysis.id;
  result.portion = analysis.portion;
  result.label = record.portion_label(analysis.portion);
  result.overloads = overloads_of(record, analysis);
  if (analysis.spoiled) {
    result.state = SizeState::spoiled;
    result.reason = *analysis.spoiled;
    return result;
  }
  result.waits_for = missing(record.portion(analysis.portion), analysis, record.settings.decimal_mark);
  if (result.waits_for.empty()) finish(record, analysis, of_fractions, result);
  return result;
}

std::vector<Opening> sizes_that_would_help(const Analysis& analysis, const SieveResult& curve) {
  SieveSeries series = SieveSeries::iso_3310_1;
  for (const Cut& cut : analysis.cuts)
    if (cut.series) series = *cut.series;
  const Opening top = curve.rows.front().opening, bottom = curve.rows.back().opening;
  switch (curve.p80.status) {
    case SizeStatus::above_top_sieve: return {nearest(series, top * 1.4142), nearest(series, top * 2)};
    case SizeStatus::below_bottom_sieve: return {nearest(series, bottom / 1.4142), nearest(series, bottom / 2)};
    case SizeStatus::inside: break;
  }
  if (curve.p80.bracket_ratio <= 2) return {};
  const auto& rows = curve.rows;
  for (std::size_t i = 0; i + 1 < rows.size(); ++i)
    if (*curve.p80.size <= rows[i].opening && *curve.p80.size >= rows[i + 1].opening)
      return sizes_between(series, rows[i + 1].opening, rows[i].opening);
  return {};
}

}  // namespace prillbook::results
