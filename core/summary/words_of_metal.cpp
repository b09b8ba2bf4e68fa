// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>

#include "core/summary/lines.h"
#include "core/summary/words.h"

namespace prillbook::summary {
namespace {

using results::Group;
using results::TestResult;
using results::TestState;

// Gold that was looked for and not seen is said so, with what may have been missed.
std::string gold_words(std::string what, const MeasuredGrade& gold, const Speech& say) {
  const wording::Named before{"before", std::move(what)};
  if (gold.value > Grade()) return say("found.gold", {before, {"gold", both_units(gold, say)}});
  if (!gold.hi) return say("found.none", {before});
  return say("found.none_below", {before, {"gold", both_units(gold, say)}});
}

const TestResult* first_done(const std::vector<TestResult>& tests) {
  const auto found = std::find_if(tests.begin(), tests.end(), [](const TestResult& t) { return t.state == TestState::done; });
  return found == tests.end() ? nullptr : &*found;
}

std::string by_fire_words(const Group& fire, const Speech& say) {
  if (fire.gold.valid == 1) return say("found.by_fire");
  return say("found.by_fires", {{"portions", std::to_string(fire.gold.valid)}});
}

void add_silver(Sentences& out, const MeasuredGrade* silver, const SummarySample& sample, const TestResult* test,
                const Speech& say) {
  if (test && test->grade && test->grade->none_seen) return;  // said with the gold
  if (silver) {
    out.push_back(say("found.silver", {{"silver", both_units(*silver, say)}}));
    return;
  }
  const std::string why = test ? silver_words(sample.record, *test, say) : "";
  out.push_back(why.empty() ? say("found.silver_table") : say("found.silver_why", {{"why", why}}));
}

// A bead of which only the whole is known.
void add_bead_alone(Sentences& out, const TestResult& test, bool by_fire, const Speech& say) {
  const wording::Named bead{"bead", both_units(test.grade->bead, say)};
  out.push_back(by_fire ? say("found.bead_by_fire", {bead}) : say("found.bead_by_pan", {bead}));
  out.push_back(say("found.no_fineness"));
}

void add_fire(Sentences& out, const SummarySample& sample, const Speech& say) {
  const Group& fire = sample.result.fire;
  const TestResult* first = first_done(fire.tests);
  if (!fire.gold.mean) {
    if (first) add_bead_alone(out, *first, true, say);
    return;
  }
  out.push_back(gold_words(by_fire_words(fire, say), *fire.gold.mean, say));
  if (fire.gold.sd && fire.gold.sd->in(unit::gram_per_tonne) > 0) {
    const double sd = fire.gold.sd->in(unit::gram_per_tonne);
    out.push_back(say("found.spread", {{"sd", with_unit(figure(sd, {}, {}, unit::gram_per_tonne.symbol, {}, say))}}));
  }
  add_silver(out, common_silver(fire), sample, first, say);
}

void add_pan(Sentences& out, const SummarySample& sample, const Speech& say) {
  const auto& result = sample.result;
  if (!result.leading_pan) {
    if (const TestResult* done = first_done(result.pan)) add_bead_alone(out, *done, false, say);
    return;
  }
  const TestResult& pan = result.pan[*result.leading_pan];
  out.push_back(gold_words(say("found.by_pan"), *pan.grade->gold, say));
  add_silver(out, pan.grade->silver ? &*pan.grade->silver : nullptr, sample, &pan, say);
}

void add_metallics(Sentences& out, const SummarySample& sample, const Speech& say) {
  for (const results::MetallicsOf& metallics : sample.result.metallics) {
    if (!metallics.gold) continue;
    out.push_back(gold_words(say("found.by_metallics"), *metallics.gold, say));
    out.push_back(metallics_note(metallics, say));
  }
}

std::string waiting_words(const SummarySample& sample, const Speech& say) {
  const auto& result = sample.result;
  const bool untested = result.pan.empty() && result.fire.tests.empty();
  if (untested && !result.sizes.empty()) return say("found.no_gold_test");
  if (untested && sample.lot) return say("found.lot_alone");
  if (untested) return say("found.untested");
  return say("found.waits");
}

}  // namespace

Sentences what_we_found(const SummarySample& sample, const Speech& say) {
  Sentences out;
  add_fire(out, sample, say);
  add_metallics(out, sample, say);
  if (!sample.result.fire.gold.mean) add_pan(out, sample, say);
  if (out.empty()) out.push_back(waiting_words(sample, say));
  return out;
}

}  // namespace prillbook::summary
