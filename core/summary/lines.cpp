// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/summary/lines.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

#include "core/assay/rounding.h"
#include "core/readings/last_place.h"
#include "core/summary/words_of_sizes.h"

namespace prillbook::summary {
namespace {

using results::Group;
using results::SampleRecord;
using results::TestResult;
using results::TestState;

template <class Entries, class Wanted>
auto find_entry(const Entries& entries, const Wanted& wanted) {
  const auto found = std::find_if(entries.begin(), entries.end(), wanted);
  return found == entries.end() ? nullptr : &*found;
}

std::string_view state_word(TestState state) {
  switch (state) {
    case TestState::waiting: return "waiting";
    case TestState::done: return "done";
    case TestState::spoiled: return "spoiled";
    case TestState::excluded: return "excluded";
    case TestState::refused: return "refused";
  }
  return "";
}

std::string reason_of(const TestResult& test, const Speech& say) {
  if (test.state == TestState::waiting) return say("note.unweighed");
  if (test.state == TestState::refused && test.error) return say("note.contradict", {{"detail", detail_of(*test.error, say)}});
  return test.reason;
}

// Mean of repeat weighings in mg, to the finest place that was read.
std::optional<Figure> bead_figure(const weighing::Bead& bead, const Speech& say) {
  if (bead.none_seen) return limit({}, unit::milligram.symbol, say);
  const auto weighings = bead.valid(weighing::of_bead);
  if (weighings.empty()) return std::nullopt;
  if (weighings.size() == 1) return mass_figure(weighings.front()->mass, unit::milligram, say);
  Mass sum;
  std::optional<double> place;
  for (const auto* weighing : weighings) {
    sum += weighing->mass.mass();
    const auto last = readings::last_place(weighing->mass);
    if (last && (!place || *last < *place)) place = last;
  }
  const auto step = place ? std::optional(Mass(*place, unit::gram).in(unit::milligram)) : std::nullopt;
  return figure((sum / double(weighings.size())).in(unit::milligram), {}, {}, unit::milligram.symbol, step, say);
}

// To one per thousand: no method of a small lab tells more.
std::optional<Figure> fineness_figure(const weighing::Bead& bead, const Speech& say) {
  if (bead.method == "parted") {
    const auto parted = bead.parted();
    if (!parted) return std::nullopt;
    return figure(1000 * (parted->gold / parted->bead), {}, {}, unit::permil.symbol, 1.0, say);
  }
  if (!bead.method || !bead.fineness) return std::nullopt;
  return figure(bead.fineness->value, {}, {}, unit::permil.symbol, 1.0, say);
}

void set_gold(ResultLine& line, const MeasuredGrade& gold, const Speech& say) {
  line.gold = grade_figure(gold, unit::gram_per_tonne, say);
  line.gold_oz = grade_figure(gold, unit::ounce_per_short_ton, say);
}

void set_silver(ResultLine& line, const MeasuredGrade& silver, const Speech& say) {
  line.silver = grade_figure(silver, unit::gram_per_tonne, say);
  line.silver_oz = grade_figure(silver, unit::ounce_per_short_ton, say);
}

ResultLine line_of_sample(const SampleRecord& record) {
  ResultLine line;
  line.sample = record.sample.number;
  line.mark = record.sample.mark;
  line.client = record.client.name;
  return line;
}

// What slag and cupel gave back is in the grade, and is named beneath it as a figure of its own.
std::string recovered_note(const GradeResult& grade, const Speech& say) {
  if (!grade.recovered) return "";
  const auto in_words = [&](const auto& metal) { return with_unit(grade_figure(metal, unit::gram_per_tonne, say)); };
  const std::string gold =
      grade.recovered_gold ? say("recovered.gold", {{"gold", in_words(*grade.recovered_gold)}}) : std::string();
  return say("recovered.with", {{"metal", in_words(*grade.recovered)}, {"gold", gold}});
}

ResultLine line_of_test(const SampleRecord& record, const TestResult& test, LineKind kind, const Speech& say) {
  ResultLine line = line_of_sample(record);
  line.test = test.label;
  line.kind = kind;
  line.state = state_word(test.state);
  line.reason = reason_of(test, say);
  line.held = fmt::format("{}", fmt::join(test.held, "; "));
  const portions::Portion* portion = record.portion(test.portion);
  if (portion && portion->mass) line.portion = mass_figure(*portion->mass, unit::gram, say);
  if (const weighing::Bead* bead = bead_of(record, test); bead && test.state != TestState::spoiled) {
    line.bead = bead_figure(*bead, say);
    line.fineness = fineness_figure(*bead, say);
    line.fineness_method = bead->method.value_or("");
  }
  if (!test.grade) return line;
  line.note = recovered_note(*test.grade, say);
  if (test.grade->gold) set_gold(line, *test.grade->gold, say);
  if (test.grade->silver && !test.grade->none_seen) set_silver(line, *test.grade->silver, say);
  line.silver_words = silver_words(record, test, say);
  return line;
}

std::string_view size_state(results::SizeState state) {
  switch (state) {
    case results::SizeState::waiting: return "waiting";
    case results::SizeState::done: return "done";
    case results::SizeState::spoiled: return "spoiled";
    case results::SizeState::refused: return "refused";
  }
  return "";
}

ResultLine line_of_sieving(const SampleRecord& record, const results::SizeResult& size, const Speech& say) {
  ResultLine line = line_of_sample(record);
  line.test = size.label;
  line.kind = LineKind::sieve_analysis;
  line.state = size_state(size.state);
  line.reason = size.state == results::SizeState::done ? "" : size_in_short(size, say);
  const portions::Portion* portion = record.portion(size.portion);
  if (portion && portion->mass) line.portion = mass_figure(*portion->mass, unit::gram, say);
  if (!size.curve) return line;
  const auto um = [&say](const PassingSize& of) -> std::optional<Figure> {
    if (!of.size) return std::nullopt;
    return figure(of.size->in(unit::micrometre), {}, {}, unit::micrometre.symbol, {}, say);
  };
  line.p80 = um(size.curve->p80);
  line.p50 = um(size.curve->p50);
  line.sieve_loss = figure(size.curve->loss_pct, {}, {}, unit::percent.symbol, 0.01, say);
  return line;
}

std::string joined(const std::vector<std::string>& waits_for, const Speech& say) {
  std::string words;
  for (const std::string& one : waits_for) words += (words.empty() ? "" : say("note.and")) + say.again("waits", one);
  return words;
}

ResultLine line_of_metallics(const SampleRecord& record, const results::MetallicsOf& metallics, const Speech& say) {
  ResultLine line = line_of_sample(record);
  line.test = metallics.label;
  line.kind = LineKind::metallics;
  line.valid = metallics.fine_charges;
  const portions::Portion* portion = record.portion(metallics.portion);
  if (portion && portion->mass) line.portion = mass_figure(*portion->mass, unit::gram, say);
  switch (metallics.state) {
    case results::MetallicsState::waiting:
      line.state = "waiting";
      line.reason = say("note.missing", {{"what", joined(metallics.waits_for, say)}});
      return line;
    case results::MetallicsState::refused:
      line.state = "refused";
      line.reason = metallics.error ? say("note.contradict", {{"detail", detail_of(*metallics.error, say)}}) : "";
      return line;
    case results::MetallicsState::done: break;
  }
  line.state = "done";
  line.note = metallics_note(metallics, say);
  set_gold(line, *metallics.gold, say);
  return line;
}

void set_comparison(ResultLine& line, const Comparison& comparison, const Speech& say) {
  const Gap& gap = comparison.gold;
  const auto g_t = [](const std::optional<Grade>& grade) {
    return grade ? std::optional(grade->in(unit::gram_per_tonne)) : std::nullopt;
  };
  line.recovery = recovery_figure(gap, say);
  line.gap = figure(gap.value.in(unit::gram_per_tonne), g_t(gap.lo), g_t(gap.hi), unit::gram_per_tonne.symbol, {}, say);
  line.verdict = verdict_name(gap.verdict);
  if (comparison.basis) line.basis = basis_name(*comparison.basis);
  if (!comparison.balance) return;
  line.head = grade_figure(comparison.balance->calculated_head, unit::gram_per_tonne, say);
  if (comparison.balance->closure) line.closure = figure(100 * *comparison.balance->closure, {}, {}, "%", 1.0, say);
}

ResultLine mean_line(const SummarySample& sample, const Speech& say) {
  const Group& fire = sample.result.fire;
  ResultLine line = line_of_sample(sample.record);
  line.kind = LineKind::mean_of_charges;
  line.state = "done";
  line.valid = fire.gold.valid;
  set_gold(line, *fire.gold.mean, say);
  if (const MeasuredGrade* silver = common_silver(fire))
    set_silver(line, *silver, say);
  else
    line.silver_words = say("silver.not_all");
  if (sample.result.comparison) set_comparison(line, *sample.result.comparison, say);
  return line;
}

}  // namespace

std::string_view kind_name(LineKind kind) {
  switch (kind) {
    case LineKind::pan_test: return "pan_test";
    case LineKind::charge: return "charge";
    case LineKind::charge_of_remainder: return "charge_of_remainder";
    case LineKind::charge_of_tail: return "charge_of_tail";
    case LineKind::mean_of_charges: return "mean_of_charges";
    case LineKind::no_result: return "no_result";
    case LineKind::sieve_analysis: return "sieve_analysis";
    case LineKind::test_of_fraction: return "test_of_fraction";
    case LineKind::metallics: return "metallics";
  }
  return "";
}

std::string kind_words(LineKind kind, const Speech& say) { return say.named("test", kind_name(kind)); }

std::string detail_of(const Error& error, const Speech& say) { return say.translated() ? "" : ": " + error.detail; }

const results::PanEntry* pan_entry(const SampleRecord& record, PanTestId id) {
  return find_entry(record.pan_tests, [id](const results::PanEntry& entry) { return entry.test.id == id; });
}

const results::FireEntry* fire_entry(const SampleRecord& record, ChargeId id) {
  return find_entry(record.charges, [id](const results::FireEntry& entry) { return entry.charge.id == id; });
}

const weighing::Bead* bead_of(const SampleRecord& record, const TestResult& test) {
  if (test.pan_test) {
    const auto* entry = pan_entry(record, test.pan_test);
    return entry ? &entry->bead : nullptr;
  }
  const auto* entry = fire_entry(record, test.charge);
  return entry ? &entry->bead : nullptr;
}

const MeasuredGrade* common_silver(const Group& group) {
  return group.silver.mean && group.silver.valid == group.gold.valid ? &*group.silver.mean : nullptr;
}

std::optional<Figure> recovery_figure(const Gap& gap, const Speech& say) {
  if (!gap.recovery) return std::nullopt;
  const double percent = 100 * *gap.recovery;
  if (!gap.recovery_interval) return figure(percent, {}, {}, "%", 1.0, say);
  const double lo = 100 * gap.recovery_interval->lo;
  if (gap.recovery_interval->hi) return figure(percent, lo, 100 * *gap.recovery_interval->hi, "%", {}, say);
  Figure open = figure(percent, {}, {}, "%", 1.0, say);
  open.lo = lo;
  open.lo_digits = figure(lo, {}, {}, "%", 1.0, say).digits;
  return open;
}

std::string silver_words(const SampleRecord& record, const TestResult& test, const Speech& say) {
  if (!test.grade) return "";
  if (test.grade->none_seen) return say("silver.no_bead");
  if (test.grade->silver) return "";
  if (test.grade->silver_status == SilverStatus::not_above_blank) {
    if (!test.grade->silver_hi) return say("silver.not_above");
    const Figure most = limit(test.grade->silver_hi->in(unit::gram_per_tonne), unit::gram_per_tonne.symbol, say);
    return say("silver.not_above_most", {{"most", with_unit(most)}});
  }
  const auto* entry = test.charge ? fire_entry(record, test.charge) : nullptr;
  if (entry && entry->charge.collector && entry->charge.collector->value > 0) return say("silver.collector");
  return say("silver.no_fineness");
}

std::string metallics_note(const results::MetallicsOf& metallics, const Speech& say) {
  if (!metallics.result) return "";
  const std::string charges = metallics.fine_charges == 1
                                  ? say("metallics.one")
                                  : say("metallics.many", {{"count", std::to_string(metallics.fine_charges)}});
  const auto& share = metallics.result->coarse_share;
  return say("metallics.note", {{"share", share ? say("metallics.share", {{"percent", rounded(100 * *share, 0, say)}}) : ""},
                                {"charges", charges}});
}

std::vector<ResultLine> result_lines(const SummarySample& sample, const Speech& say) {
  std::vector<ResultLine> lines;
  const auto add = [&](const std::vector<TestResult>& tests, LineKind kind) {
    for (const TestResult& test : tests) lines.push_back(line_of_test(sample.record, test, kind, say));
  };
  add(sample.result.pan, LineKind::pan_test);
  add(sample.result.fire.tests, LineKind::charge);
  if (sample.result.fire.gold.mean) lines.push_back(mean_line(sample, say));
  add(sample.result.remainder.tests, LineKind::charge_of_remainder);
  add(sample.result.tail.tests, LineKind::charge_of_tail);
  for (const results::MetallicsOf& one : sample.result.metallics) lines.push_back(line_of_metallics(sample.record, one, say));
  for (const results::SizeResult& size : sample.result.sizes) lines.push_back(line_of_sieving(sample.record, size, say));
  for (const TestResult& test : sample.result.of_fractions) {
    lines.push_back(line_of_test(sample.record, test, LineKind::test_of_fraction, say));
    if (const portions::Portion* fraction = sample.record.fraction_of(test.portion))
      lines.back().size = fraction->remarks.value_or("");
  }
  if (lines.empty()) {
    lines.push_back(line_of_sample(sample.record));
    lines.back().state = "waiting";
    lines.back().reason = say("note.untested");
  }
  return lines;
}

}  // namespace prillbook::summary
