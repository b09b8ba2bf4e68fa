// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/summary/lines.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

#include "core/assay/rounding.h"
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

std::string reason_of(const TestResult& test) {
  if (test.state == TestState::waiting) return "its bead or its portion is not weighed yet";
  if (test.state == TestState::refused && test.error)
    return fmt::format("its figures contradict each other: {}", test.error->detail);
  return test.reason;
}

// Mean of repeat weighings in mg, to the finest place that was read.
std::optional<Figure> bead_figure(const weighing::Bead& bead, DecimalMark mark) {
  if (bead.none_seen) return limit({}, unit::milligram.symbol, mark);
  const auto weighings = bead.valid(weighing::of_bead);
  if (weighings.empty()) return std::nullopt;
  if (weighings.size() == 1) return mass_figure(weighings.front()->mass, unit::milligram, mark);
  Mass sum;
  std::optional<double> place;
  for (const auto* weighing : weighings) {
    sum += weighing->mass.mass();
    const auto last = last_place(weighing->mass);
    if (last && (!place || *last < *place)) place = last;
  }
  const auto step = place ? std::optional(Mass(*place, unit::gram).in(unit::milligram)) : std::nullopt;
  return figure((sum / double(weighings.size())).in(unit::milligram), {}, {}, unit::milligram.symbol, step, mark);
}

// To one per thousand: no method of a small lab tells more.
std::optional<Figure> fineness_figure(const weighing::Bead& bead, DecimalMark mark) {
  if (bead.method == "parted") {
    const auto parted = bead.parted();
    if (!parted) return std::nullopt;
    return figure(1000 * (parted->gold / parted->bead), {}, {}, unit::permil.symbol, 1.0, mark);
  }
  if (!bead.method || !bead.fineness) return std::nullopt;
  return figure(bead.fineness->value, {}, {}, unit::permil.symbol, 1.0, mark);
}

void set_gold(ResultLine& line, const MeasuredGrade& gold, DecimalMark mark) {
  line.gold = grade_figure(gold, unit::gram_per_tonne, mark);
  line.gold_oz = grade_figure(gold, unit::ounce_per_short_ton, mark);
}

void set_silver(ResultLine& line, const MeasuredGrade& silver, DecimalMark mark) {
  line.silver = grade_figure(silver, unit::gram_per_tonne, mark);
  line.silver_oz = grade_figure(silver, unit::ounce_per_short_ton, mark);
}

ResultLine line_of_sample(const SampleRecord& record) {
  ResultLine line;
  line.sample = record.sample.number;
  line.mark = record.sample.mark;
  line.client = record.client.name;
  return line;
}

// What slag and cupel gave back is in the grade, and is named beneath it as a figure of its own.
std::string recovered_note(const GradeResult& grade, DecimalMark mark) {
  if (!grade.recovered) return "";
  std::string words = fmt::format("With {} of metal that came back from slag and cupel",
                                  with_unit(grade_figure(*grade.recovered, unit::gram_per_tonne, mark)));
  if (grade.recovered_gold)
    words += fmt::format(", {} of it gold", with_unit(grade_figure(*grade.recovered_gold, unit::gram_per_tonne, mark)));
  return words + ".";
}

ResultLine line_of_test(const SampleRecord& record, const TestResult& test, LineKind kind, DecimalMark mark) {
  ResultLine line = line_of_sample(record);
  line.test = test.label;
  line.kind = kind;
  line.state = state_word(test.state);
  line.reason = reason_of(test);
  line.held = fmt::format("{}", fmt::join(test.held, "; "));
  const portions::Portion* portion = record.portion(test.portion);
  if (portion && portion->mass) line.portion = mass_figure(*portion->mass, unit::gram, mark);
  if (const weighing::Bead* bead = bead_of(record, test); bead && test.state != TestState::spoiled) {
    line.bead = bead_figure(*bead, mark);
    line.fineness = fineness_figure(*bead, mark);
    line.fineness_method = bead->method.value_or("");
  }
  if (!test.grade) return line;
  line.note = recovered_note(*test.grade, mark);
  if (test.grade->gold) set_gold(line, *test.grade->gold, mark);
  if (test.grade->silver && !test.grade->none_seen) set_silver(line, *test.grade->silver, mark);
  line.silver_words = silver_words(record, test, mark);
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

ResultLine line_of_sieving(const SampleRecord& record, const results::SizeResult& size, DecimalMark mark) {
  ResultLine line = line_of_sample(record);
  line.test = size.label;
  line.kind = LineKind::sieve_analysis;
  line.state = size_state(size.state);
  line.reason = size.state == results::SizeState::done ? "" : size_in_short(size, mark);
  const portions::Portion* portion = record.portion(size.portion);
  if (portion && portion->mass) line.portion = mass_figure(*portion->mass, unit::gram, mark);
  if (!size.curve) return line;
  const auto um = [mark](const PassingSize& of) -> std::optional<Figure> {
    if (!of.size) return std::nullopt;
    return figure(of.size->in(unit::micrometre), {}, {}, unit::micrometre.symbol, {}, mark);
  };
  line.p80 = um(size.curve->p80);
  line.p50 = um(size.curve->p50);
  line.sieve_loss = figure(size.curve->loss_pct, {}, {}, unit::percent.symbol, 0.01, mark);
  return line;
}

ResultLine line_of_metallics(const SampleRecord& record, const results::MetallicsOf& metallics, DecimalMark mark) {
  ResultLine line = line_of_sample(record);
  line.test = metallics.label;
  line.kind = LineKind::metallics;
  line.valid = metallics.fine_charges;
  const portions::Portion* portion = record.portion(metallics.portion);
  if (portion && portion->mass) line.portion = mass_figure(*portion->mass, unit::gram, mark);
  switch (metallics.state) {
    case results::MetallicsState::waiting:
      line.state = "waiting";
      line.reason = fmt::format("{} is missing", fmt::join(metallics.waits_for, " and "));
      return line;
    case results::MetallicsState::refused:
      line.state = "refused";
      line.reason = metallics.error ? fmt::format("its figures contradict each other: {}", metallics.error->detail) : "";
      return line;
    case results::MetallicsState::done: break;
  }
  line.state = "done";
  line.note = metallics_note(metallics, mark);
  set_gold(line, *metallics.gold, mark);
  return line;
}

void set_comparison(ResultLine& line, const Comparison& comparison, DecimalMark mark) {
  const Gap& gap = comparison.gold;
  const auto g_t = [](const std::optional<Grade>& grade) {
    return grade ? std::optional(grade->in(unit::gram_per_tonne)) : std::nullopt;
  };
  line.recovery = recovery_figure(gap, mark);
  line.gap = figure(gap.value.in(unit::gram_per_tonne), g_t(gap.lo), g_t(gap.hi), unit::gram_per_tonne.symbol, {}, mark);
  line.verdict = verdict_name(gap.verdict);
  if (comparison.basis) line.basis = basis_name(*comparison.basis);
  if (!comparison.balance) return;
  line.head = grade_figure(comparison.balance->calculated_head, unit::gram_per_tonne, mark);
  if (comparison.balance->closure) line.closure = figure(100 * *comparison.balance->closure, {}, {}, "%", 1.0, mark);
}

ResultLine mean_line(const SummarySample& sample, DecimalMark mark) {
  const Group& fire = sample.result.fire;
  ResultLine line = line_of_sample(sample.record);
  line.kind = LineKind::mean_of_charges;
  line.state = "done";
  line.valid = fire.gold.valid;
  set_gold(line, *fire.gold.mean, mark);
  if (const MeasuredGrade* silver = common_silver(fire))
    set_silver(line, *silver, mark);
  else
    line.silver_words = "not determined in every charge that counts";
  if (sample.result.comparison) set_comparison(line, *sample.result.comparison, mark);
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

std::string_view kind_words(LineKind kind) {
  switch (kind) {
    case LineKind::pan_test: return "pan";
    case LineKind::charge: return "fire";
    case LineKind::charge_of_remainder: return "fire, remainder";
    case LineKind::charge_of_tail: return "fire, tail";
    case LineKind::mean_of_charges: return "mean of fire";
    case LineKind::no_result: return "no result";
    case LineKind::sieve_analysis: return "sieve";
    case LineKind::test_of_fraction: return "of one size";
    case LineKind::metallics: return "metallics";
  }
  return "";
}

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

std::optional<Figure> recovery_figure(const Gap& gap, DecimalMark mark) {
  if (!gap.recovery) return std::nullopt;
  const double percent = 100 * *gap.recovery;
  if (!gap.recovery_interval) return figure(percent, {}, {}, "%", 1.0, mark);
  const double lo = 100 * gap.recovery_interval->lo;
  if (gap.recovery_interval->hi) return figure(percent, lo, 100 * *gap.recovery_interval->hi, "%", {}, mark);
  Figure open = figure(percent, {}, {}, "%", 1.0, mark);
  open.lo = lo;
  open.lo_digits = figure(lo, {}, {}, "%", 1.0, mark).digits;
  return open;
}

std::string silver_words(const SampleRecord& record, const TestResult& test, DecimalMark mark) {
  if (!test.grade) return "";
  if (test.grade->none_seen) return "no bead was seen, so no silver either";
  if (test.grade->silver) return "";
  if (test.grade->silver_status == SilverStatus::not_above_blank) {
    if (!test.grade->silver_hi) return "not above the silver that the litharge and lead bring";
    const Figure most = limit(test.grade->silver_hi->in(unit::gram_per_tonne), unit::gram_per_tonne.symbol, mark);
    return fmt::format("not above the silver that the litharge and lead bring: {}", with_unit(most));
  }
  const auto* entry = test.charge ? fire_entry(record, test.charge) : nullptr;
  if (entry && entry->charge.collector && entry->charge.collector->value > 0)
    return "not determined: silver was put in the crucible to gather the gold, and what is lost of it can be more than the "
           "ore holds";
  return "not determined: the fineness of the bead is not known";
}

std::string metallics_note(const results::MetallicsOf& metallics, DecimalMark mark) {
  if (!metallics.result) return "";
  const std::string charges = metallics.fine_charges == 1 ? "one charge" : fmt::format("{} charges", metallics.fine_charges);
  const auto& share = metallics.result->coarse_share;
  return fmt::format("Coarse part assayed whole{}; fine part by {}.",
                     share ? fmt::format(", {} % of the gold", rounded(100 * *share, 0, mark)) : "", charges);
}

std::vector<ResultLine> result_lines(const SummarySample& sample, DecimalMark mark) {
  std::vector<ResultLine> lines;
  const auto add = [&](const std::vector<TestResult>& tests, LineKind kind) {
    for (const TestResult& test : tests) lines.push_back(line_of_test(sample.record, test, kind, mark));
  };
  add(sample.result.pan, LineKind::pan_test);
  add(sample.result.fire.tests, LineKind::charge);
  if (sample.result.fire.gold.mean) lines.push_back(mean_line(sample, mark));
  add(sample.result.remainder.tests, LineKind::charge_of_remainder);
  add(sample.result.tail.tests, LineKind::charge_of_tail);
  for (const results::MetallicsOf& one : sample.result.metallics) lines.push_back(line_of_metallics(sample.record, one, mark));
  for (const results::SizeResult& size : sample.result.sizes) lines.push_back(line_of_sieving(sample.record, size, mark));
  for (const TestResult& test : sample.result.of_fractions) {
    lines.push_back(line_of_test(sample.record, test, LineKind::test_of_fraction, mark));
    if (const portions::Portion* fraction = sample.record.fraction_of(test.portion))
      lines.back().size = fraction->remarks.value_or("");
  }
  if (lines.empty()) {
    lines.push_back(line_of_sample(sample.record));
    lines.back().state = "waiting";
    lines.back().reason = "nothing was tested yet";
  }
  return lines;
}

}  // namespace prillbook::summary
