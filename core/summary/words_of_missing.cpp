// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>

#include <algorithm>

#include "core/summary/words.h"

namespace prillbook::summary {
namespace {

using results::TestResult;
using results::TestState;

struct Kind {
  std::string_view begin, bead;
};

constexpr Kind pan_words{"No pan test stands: cut a portion for the pan and pan it.", "pan bead"};
constexpr Kind fire_words{"No charge stands: cut a portion for the fire and begin a charge.", "fire bead"};

void add_side(Sentences& out, const std::vector<TestResult>& tests, const Kind& kind) {
  const bool has_gold = std::any_of(tests.begin(), tests.end(), [](const TestResult& test) {
    return test.state == TestState::done && test.grade->gold.has_value();
  });
  if (has_gold) return;
  bool begun = false;
  for (const TestResult& test : tests) {
    if (test.state == TestState::spoiled || test.state == TestState::excluded) continue;
    begun = true;
    if (test.state == TestState::waiting)
      out.push_back(fmt::format("The {} of {} waits for the balance, or its portion was not weighed.", kind.bead, test.label));
    else if (test.state == TestState::done)
      out.push_back(
          fmt::format("The {} of {} has no fineness: part it, or enter how its fineness was got.", kind.bead, test.label));
    else
      out.push_back(fmt::format("The figures of {} contradict each other: look at its weighings and its portion.", test.label));
  }
  if (!begun) out.emplace_back(kind.begin);
}

void add_without_doubt(Sentences& out, const std::vector<TestResult>& tests) {
  for (const TestResult& test : tests)
    if (test.state == TestState::done && !test.grade->bead.spread)
      out.push_back(
          fmt::format("How far the grade of {} may be trusted can not be said: no balance with a step is named at its weighing.",
                      test.label));
}

}  // namespace

Sentences what_is_missing(const results::SampleResult& result) {
  Sentences out;
  if (!result.comparison) {
    add_side(out, result.pan, pan_words);
    add_side(out, result.fire.tests, fire_words);
  }
  add_without_doubt(out, result.pan);
  add_without_doubt(out, result.fire.tests);
  return out;
}

}  // namespace prillbook::summary
