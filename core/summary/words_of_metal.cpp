// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <algorithm>

#include "core/summary/lines.h"
#include "core/summary/words.h"

namespace prillbook::summary {
namespace {

using results::Group;
using results::TestResult;
using results::TestState;

// Gold that was looked for and not seen is said so, with what may have been missed.
std::string gold_words(std::string_view before, const MeasuredGrade& gold, DecimalMark mark) {
  if (gold.value > Grade()) return fmt::format("{}: {}.", before, both_units(gold, mark));
  if (!gold.hi) return fmt::format("{}: none seen. How little we could have seen is not known.", before);
  return fmt::format("{}: none seen. If there is any, it is {}.", before, both_units(gold, mark));
}

const TestResult* first_done(const std::vector<TestResult>& tests) {
  const auto found = std::find_if(tests.begin(), tests.end(), [](const TestResult& t) { return t.state == TestState::done; });
  return found == tests.end() ? nullptr : &*found;
}

std::string count_words(const Group& fire) {
  if (fire.gold.valid == 1) return "by fire assay of one portion";
  return fmt::format("by fire assay, mean of {} portions", fire.gold.valid);
}

void add_silver(Sentences& out, const MeasuredGrade* silver, const SummarySample& sample, const TestResult* test,
                DecimalMark mark) {
  if (test && test->grade && test->grade->none_seen) return;  // said with the gold
  if (silver) {
    out.push_back(fmt::format("Silver, by difference (what is left of the bead when its gold is taken off): {}.",
                              both_units(*silver, mark)));
    return;
  }
  const std::string why = test ? silver_words(sample.record, *test, mark) : "";
  out.push_back(why.empty() ? "Silver: not determined in every charge that counts; see the table."
                            : fmt::format("Silver: {}.", why));
}

// A bead of which only the whole is known.
void add_bead_alone(Sentences& out, const TestResult& test, std::string_view how, DecimalMark mark) {
  out.push_back(fmt::format("Gold and silver together, {}: {}.", how, both_units(test.grade->bead, mark)));
  out.push_back("How much of it is gold is not determined: the fineness of the bead is not known yet.");
}

void add_fire(Sentences& out, const SummarySample& sample, DecimalMark mark) {
  const Group& fire = sample.result.fire;
  const TestResult* first = first_done(fire.tests);
  if (!fire.gold.mean) {
    if (first) add_bead_alone(out, *first, "by fire assay", mark);
    return;
  }
  out.push_back(gold_words(fmt::format("Gold in the rock, {}", count_words(fire)), *fire.gold.mean, mark));
  if (fire.gold.sd && fire.gold.sd->in(unit::gram_per_tonne) > 0) {
    const double sd = fire.gold.sd->in(unit::gram_per_tonne);
    out.push_back(fmt::format("The portions differ among themselves with a standard deviation of {}.",
                              with_unit(figure(sd, {}, {}, unit::gram_per_tonne.symbol, {}, mark))));
  }
  add_silver(out, common_silver(fire), sample, first, mark);
}

void add_pan(Sentences& out, const SummarySample& sample, DecimalMark mark) {
  const auto& result = sample.result;
  if (!result.leading_pan) {
    if (const TestResult* done = first_done(result.pan)) add_bead_alone(out, *done, "caught by the pan", mark);
    return;
  }
  const TestResult& pan = result.pan[*result.leading_pan];
  out.push_back(gold_words("Gold that the pan caught, per tonne of rock panned", *pan.grade->gold, mark));
  add_silver(out, pan.grade->silver ? &*pan.grade->silver : nullptr, sample, &pan, mark);
}

void add_metallics(Sentences& out, const SummarySample& sample, DecimalMark mark) {
  for (const results::MetallicsOf& metallics : sample.result.metallics) {
    if (!metallics.gold) continue;
    out.push_back(gold_words("Gold by metallics, coarse and fine part together", *metallics.gold, mark));
    out.push_back(metallics_note(metallics, mark));
  }
}

std::string waiting_words(const SummarySample& sample) {
  const auto& result = sample.result;
  const bool untested = result.pan.empty() && result.fire.tests.empty();
  if (untested && !result.sizes.empty()) return "Nothing was panned or fused yet: there is no gold figure to give.";
  if (untested) return "Nothing was tested yet: there is no result to give.";
  return "There is no result to give yet: see the table of tests for what each waits for or why it was lost.";
}

}  // namespace

Sentences what_we_found(const SummarySample& sample, DecimalMark mark) {
  Sentences out;
  add_fire(out, sample, mark);
  add_metallics(out, sample, mark);
  if (!sample.result.fire.gold.mean) add_pan(out, sample, mark);
  if (out.empty()) out.push_back(waiting_words(sample));
  return out;
}

}  // namespace prillbook::summary
