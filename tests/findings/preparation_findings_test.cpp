// SPDX-License-Identifier: GPL-3.0-or-later
// What the notebook notices at Preparation, each with the case where it keeps quiet.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include "core/findings/finding.h"
#include "core/findings/wording.h"
#include "core/history/fields.h"
#include "tests/support/masses.h"
#include "tests/support/records.h"

namespace prillbook::findings {
namespace {

using testing_support::figure;
using testing_support::LabWithSample;

Instant may_5(const std::string& hour) { return *parse_iso("2026-05-05T" + hour + "+02:00"); }

struct PreparationFindings : testing::Test, LabWithSample<> {
  MachineId crusher = *milling::add_machine(book, "jaw crusher", "crusher", figure("40 g"));

  SampleId rock(const std::string& mark, const std::string& expected, const std::string& mass = "4 kg") {
    custody::NewSample fresh;
    fresh.consignment = consignment;
    fresh.mark = mark;
    fresh.expected = expected;
    fresh.mass_received = figure(mass);
    return *custody::log_sample(book, fresh);
  }
  milling::DoneStep crush(SampleId id, const std::string& in, const std::string& out, const std::string& hour,
                          const std::string& top_size = "") {
    milling::NewStep step;
    step.sample = id;
    step.kind = "crush";
    step.machine = crusher;
    step.mass_in = figure(in);
    step.mass_out = figure(out);
    if (!top_size.empty()) step.top_size = figure(top_size, Measure::opening);
    step.done_at = may_5(hour);
    const auto done = milling::do_step(book, step);
    EXPECT_TRUE(done.ok()) << done.error().detail;
    return *done;
  }
  void clean(const std::string& way, const std::string& hour, const std::string& flush = "") {
    milling::NewCleaning fresh{crusher, way, may_5(hour), person, {}, false, {}};
    if (!flush.empty()) fresh.flush_mass = figure(flush);
    const auto done = milling::clean(book, fresh);
    ASSERT_TRUE(done.ok()) << done.error().detail;
  }
  std::vector<std::string> rules_of(SampleId id) {
    std::vector<std::string> names;
    const auto found = findings_of(*connection, id);
    EXPECT_TRUE(found.ok()) << found.error().detail;
    for (const OpenOrAnswered& one : *found) names.push_back(one.finding.rule);
    return names;
  }
  bool has(SampleId id, const std::string& rule) {
    const auto names = rules_of(id);
    return std::find(names.begin(), names.end(), rule) != names.end();
  }
};

TEST_F(PreparationFindings, APanOnlyJobHasNone) {
  ASSERT_TRUE(cut("1 kg", "pan").ok());
  EXPECT_TRUE(rules_of(sample).empty());
}

TEST_F(PreparationFindings, LossWithinAndBeyondTheLimit) {
  crush(sample, "4.00 kg", "3.97 kg", "09:00");
  EXPECT_TRUE(rules_of(sample).empty());
  const SampleId dusty = rock("dusty", "ordinary");
  crush(dusty, "4.00 kg", "3.80 kg", "10:00");
  const auto found = findings_of(*connection, dusty);
  ASSERT_EQ(found->size(), 1u);
  EXPECT_EQ(found->front().finding.rule, "step_loss");
  EXPECT_NE(found->front().finding.seen.find("5.0 %"), std::string::npos) << found->front().finding.seen;
  const SampleId gained = rock("gained", "ordinary");
  crush(gained, "3.90 kg", "4.05 kg", "11:00");
  EXPECT_TRUE(has(gained, "step_loss"));
}

TEST_F(PreparationFindings, ALossThatTheWeighingExplainsIsNone) {
  const SampleId light = rock("light", "ordinary", "120 g");
  crush(light, "120 g", "118 g", "09:00");
  EXPECT_TRUE(has(light, "step_loss")) << "1.7 % read to 1 g";
  const SampleId coarse = rock("coarse scale", "ordinary", "4 kg");
  crush(coarse, "4 kg", "3.9 kg", "10:00");
  EXPECT_FALSE(has(coarse, "step_loss")) << "2.5 %, but what went in was read to 1 kg";
}

TEST_F(PreparationFindings, ATreeThatDoesNotClose) {
  ASSERT_TRUE(portions::cut(book, {sample, {}, "pan", figure("1.00 kg"), may_5("08:00"), person, {}}).ok());
  milling::NewStep split;
  split.sample = sample;
  split.kind = "split";
  split.method = "riffle";
  split.mass_in = figure("2.50 kg");
  split.parts = {{"split", figure("1.25 kg"), {}}, {"reject", figure("1.25 kg"), {}}};
  split.closed = true;
  split.done_at = may_5("09:00");
  ASSERT_TRUE(portions::set_received_mass(book, sample, figure("4.00 kg"), "as weighed").ok());
  ASSERT_TRUE(milling::do_step(book, split).ok());
  EXPECT_EQ(rules_of(sample), std::vector<std::string>{"open_tree"}) << "3.00 kg should have been there";
}

TEST_F(PreparationFindings, ATreeThatCloses) {
  ASSERT_TRUE(portions::set_received_mass(book, sample, figure("4.00 kg"), "as weighed").ok());
  crush(sample, "4.00 kg", "3.98 kg", "09:00");
  milling::NewStep split;
  split.sample = sample;
  split.kind = "split";
  split.mass_in = figure("3.98 kg");
  split.parts = {{"split", figure("2.00 kg"), {}}, {"reject", figure("1.97 kg"), {}}};
  split.closed = true;
  split.done_at = may_5("10:00");
  ASSERT_TRUE(milling::do_step(book, split).ok());
  EXPECT_TRUE(rules_of(sample).empty());
}

struct Moisture : PreparationFindings {
  void enter(SampleId id, const std::string& typed) {
    ASSERT_TRUE(readings::enter(book, history::fields::sample::moisture, id.value,
                                readings::cell_of(readings::Figure{figure(typed, Measure::share)}))
                    .ok());
  }
  void dry(SampleId id, const std::string& in, const std::string& out, const std::string& hour) {
    milling::NewStep step;
    step.sample = id;
    step.kind = "dry";
    step.mass_in = figure(in);
    step.mass_out = figure(out);
    step.done_at = may_5(hour);
    ASSERT_TRUE(milling::do_step(book, step).ok());
  }
  std::string seen(SampleId id) {
    const auto found = findings_of(*connection, id);
    return found->empty() ? "" : found->front().finding.seen;
  }
};

// Dried from 4.000 to 3.760 kg: 240/4000 is 6.00 %, 240/3760 is 6.38 %.
TEST_F(Moisture, OnTheDryBasisBesideADrying) {
  dry(sample, "4.000 kg", "3.760 kg", "09:00");
  for (const char* wet_basis : {"6 %", "6.0 %", "6.2 %", "6.9 %", "5.1 %"}) {
    enter(sample, wet_basis);
    EXPECT_TRUE(rules_of(sample).empty()) << wet_basis;
  }
  for (const char* dry_basis : {"6.4 %", "6.38 %"}) {
    enter(sample, dry_basis);
    EXPECT_EQ(rules_of(sample), std::vector<std::string>{"moisture_differs"}) << dry_basis;
    EXPECT_NE(seen(sample).find("which is the loss by the dry mass"), std::string::npos) << seen(sample);
  }
  enter(sample, "8 %");
  EXPECT_EQ(rules_of(sample), std::vector<std::string>{"moisture_differs"});
  EXPECT_EQ(seen(sample).find("by the dry mass"), std::string::npos) << "merely off";
}

// 40/4000 is 1.00 %, 40/3960 is 1.01 %: the scale does not tell them apart.
TEST_F(Moisture, TooLittleToTellTheBases) {
  dry(sample, "4.000 kg", "3.960 kg", "09:00");
  enter(sample, "1.01 %");
  EXPECT_TRUE(rules_of(sample).empty());
}

TEST_F(Moisture, ABagThatGrewLighterBeforeTheCrusher) {
  const std::pair<const char*, bool> weighed[] = {{"4.000 kg", false}, {"3.960 kg", false}, {"3.950 kg", true},
                                                  {"3.600 kg", true},  {"3.590 kg", false}, {"4.010 kg", false}};
  int hour = 8;
  for (const auto& [in, noticed] : weighed) {
    const SampleId id = rock(in, "ordinary", "4.000 kg");
    crush(id, in, "3.580 kg", fmt::format("{:02}:00", ++hour));
    EXPECT_EQ(has(id, "moisture_not_written"), noticed) << in;
  }
}

TEST_F(Moisture, WhatWasCutOrDriedOrWrittenIsNoWater) {
  const SampleId dried = rock("dried", "ordinary", "4.000 kg");
  dry(dried, "4.000 kg", "3.900 kg", "08:00");
  crush(dried, "3.900 kg", "3.890 kg", "09:00");
  EXPECT_TRUE(rules_of(dried).empty());
  const SampleId written = rock("written", "ordinary", "4.000 kg");
  enter(written, "2.5 %");
  crush(written, "3.900 kg", "3.890 kg", "10:00");
  EXPECT_TRUE(rules_of(written).empty());
  const SampleId kept = rock("kept back", "ordinary", "4.000 kg");
  ASSERT_TRUE(portions::cut(book, {kept, {}, "retain", figure("100 g"), may_5("10:30"), person, {}}).ok());
  crush(kept, "3.900 kg", "3.890 kg", "11:00");
  EXPECT_TRUE(rules_of(kept).empty());
}

TEST_F(Moisture, ABagThatCameWetAndWasTested) {
  ASSERT_TRUE(readings::enter(book, history::fields::sample::condition, sample.value, std::string("wet")).ok());
  EXPECT_TRUE(rules_of(sample).empty()) << "there is time yet";
  ASSERT_TRUE(fire::start_charge(book, {*cut("30 g", "fire"), {}, person, {}, {}, {}}).ok());
  EXPECT_EQ(rules_of(sample), std::vector<std::string>{"moisture_not_written"});
  enter(sample, "7 %");
  EXPECT_TRUE(rules_of(sample).empty());
}

TEST(LeastMass, IsRoundedUpToWhatCounts) {
  EXPECT_EQ(least_mass_in_words(Mass(3984.416, unit::gram)), "4 kg");
  EXPECT_EQ(least_mass_in_words(Mass(3.571, unit::gram)), "3.6 g");
  EXPECT_EQ(least_mass_in_words(Mass(20, unit::gram)), "20 g");
  EXPECT_EQ(least_mass_in_words(Mass()), "0.001 g");
}

TEST_F(PreparationFindings, APortionTooSmallForItsTopSize) {
  crush(sample, "4.00 kg", "3.98 kg", "09:00", "10 mm");
  ASSERT_TRUE(portions::cut(book, {sample, {}, "fire", figure("30 g"), may_5("10:00"), person, {}}).ok());
  EXPECT_EQ(rules_of(sample), std::vector<std::string>{"small_portion"});
  const SampleId fine = rock("fine", "ordinary");
  crush(fine, "4.00 kg", "3.98 kg", "11:00", "75 µm");
  ASSERT_TRUE(portions::cut(book, {fine, {}, "fire", figure("50 g"), may_5("12:00"), person, {}}).ok());
  EXPECT_TRUE(rules_of(fine).empty());
}

TEST_F(PreparationFindings, CoarseGoldAndTheScoop) {
  const auto split_by = [&](SampleId id, const std::string& method) {
    milling::NewStep split;
    split.sample = id;
    split.kind = "split";
    split.method = method;
    split.mass_in = figure("4.0 kg");
    split.parts = {{"pan", figure("1.0 kg"), {}}};
    split.done_at = may_5("09:00");
    const auto done = milling::do_step(book, split);
    const auto pan = gravity::start_pan_test(book, {done->parts.front(), may_5("10:00"), person, {}});
    EXPECT_TRUE(readings::enter(book, history::fields::pan_test::largest_colour, pan->test.value,
                                readings::cell_of(readings::Figure{figure("400 µm", Measure::opening)}))
                    .ok());
  };
  split_by(sample, "scoop");
  EXPECT_EQ(rules_of(sample), std::vector<std::string>{"poor_split"});
  const SampleId other = rock("riffled", "ordinary");
  split_by(other, "riffle");
  EXPECT_TRUE(rules_of(other).empty());
}

TEST_F(PreparationFindings, ALabThatLogsNoCleaningIsNotNagged) {
  crush(rock("specimen", "specimen"), "1.000 kg", "0.995 kg", "09:00");
  const SampleId poor = rock("poor", "low");
  crush(poor, "4.00 kg", "3.98 kg", "10:00");
  EXPECT_TRUE(rules_of(poor).empty());
}

TEST_F(PreparationFindings, APoorSampleBehindASpecimen) {
  clean("brush", "08:00");
  crush(rock("specimen", "specimen"), "1.000 kg", "0.995 kg", "09:00");
  const SampleId poor = rock("poor", "low");
  crush(poor, "4.00 kg", "3.98 kg", "10:00");
  EXPECT_EQ(rules_of(poor), (std::vector<std::string>{"uncleaned_machine", "carry_over"}));
  // By hand: the empty machine keeps 40 g of 300 g/t; (300 - 1) × 40/4040 = 2.96 g/t.
  const auto found = findings_of(*connection, poor);
  EXPECT_NE(found->back().finding.seen.find("3.0 g/t"), std::string::npos) << found->back().finding.seen;
}

TEST_F(PreparationFindings, FlushesTakeTheRiskAway) {
  clean("brush", "08:00");
  crush(rock("specimen", "specimen"), "1.000 kg", "0.995 kg", "09:00");
  clean("flush", "09:10", "1 kg");
  clean("flush", "09:20", "1 kg");
  const SampleId poor = rock("poor", "low");
  crush(poor, "4.00 kg", "3.98 kg", "10:00");
  EXPECT_TRUE(rules_of(poor).empty());
}

TEST_F(PreparationFindings, ARunOutOfOrder) {
  const SampleId rich = rock("rich", "rich"), poor = rock("poor", "low");
  const auto made = book.record_for<PlanId>("make crushing order", [&](history::ChangeSet& set) {
    return milling::keep_plan(set, crusher, person, {{0, poor, {}, 0}, {0, rich, {}, 0}}, may_5("07:00"));
  });
  ASSERT_TRUE(made.ok());
  crush(rich, "1.000 kg", "0.995 kg", "09:00");
  crush(poor, "4.00 kg", "3.98 kg", "10:00");
  EXPECT_EQ(rules_of(rich), std::vector<std::string>{"out_of_order"});
  EXPECT_TRUE(rules_of(poor).empty()) << "the other went first in spite of the order; this one is where it should be";
}

TEST_F(PreparationFindings, TheOrderPutsPoorBeforeRich) {
  const SampleId rich = rock("rich", "rich"), poor = rock("poor", "low");
  const auto order = results::propose_order(*connection, crusher, may_5("08:00"));
  ASSERT_TRUE(order.ok()) << order.error().detail;
  ASSERT_EQ(order->places.size(), 3u) << "with the sample of the lab, of which nothing is known";
  EXPECT_EQ(order->places[0].sample.id, poor);
  EXPECT_EQ(order->places[2].sample.id, rich);
  EXPECT_EQ(order->places[1].grade.basis, results::GradeBasis::unknown);
  EXPECT_EQ(results::places_to_keep(*order).size(), 3u);
}

// 200 g/t went before, 500 g of barren rock came out at 10 g/t: 10 × 500/190 = 26.3 g stay in the machine.
TEST_F(PreparationFindings, TheHoldUpIsLearnedFromAnAssayedFlush) {
  const SampleId rich = rock("rich", "rich");
  const auto charge = fire::start_charge(
      book, {*portions::cut(book, {rich, {}, "fire", figure("10 g"), may_5("08:30"), person, {}}), {}, person, {}, {}, {}});
  ASSERT_TRUE(weighing::weigh(book, {charge->bead, "bead", figure("2.5 mg"), balance, {}, person}).ok());
  ASSERT_TRUE(weighing::set_fineness(book, charge->bead, "touchstone", figure("800", Measure::fineness), {}).ok());
  crush(rich, "2.00 kg", "1.99 kg", "09:00");
  EXPECT_EQ(results::machine_state(*connection, crusher, may_5("09:05"))->origin, results::HoldUpOrigin::machine);
  clean("flush", "09:10", "500 g");
  const auto flush = milling::cleanings_of(*connection, crusher)->back();
  ASSERT_TRUE(milling::set_flush_assay(book, flush.id, figure("10 g/t", Measure::grade), {}, {}).ok());
  const auto state = results::machine_state(*connection, crusher, may_5("12:00"));
  EXPECT_EQ(state->origin, results::HoldUpOrigin::flushes);
  EXPECT_NEAR(state->holdup.mass.in(unit::gram), 10.0 * 500 / 190, 0.3);
  EXPECT_GT(state->holdup.u, Mass{});
  EXPECT_NEAR(state->held.grade.in(unit::gram_per_tonne), 10, 1e-9) << "the flush says what the machine holds now";
}

}  // namespace
}  // namespace prillbook::findings
