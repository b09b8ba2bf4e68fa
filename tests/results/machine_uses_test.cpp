// SPDX-License-Identifier: GPL-3.0-or-later
// What each use of a machine took up, and what a composite will be like.
#include "core/results/machine_uses.h"

#include <gtest/gtest.h>

#include "core/results/composite_outlook.h"
#include "tests/support/masses.h"
#include "tests/support/records.h"

namespace prillbook::results {
namespace {

using testing_support::figure;
using testing_support::LabWithSample;

Instant on_may_5(const std::string& hour) { return *parse_iso("2026-05-05T" + hour + "+02:00"); }

struct UsesOfAMachine : testing::Test, LabWithSample<> {
  MachineId crusher = *milling::add_machine(book, "jaw crusher", "crusher", figure("40 g"));

  SampleId rock(const std::string& mark, const std::string& expected) {
    custody::NewSample fresh;
    fresh.consignment = consignment;
    fresh.mark = mark;
    fresh.expected = expected;
    fresh.mass_received = figure("4 kg");
    return *custody::log_sample(book, fresh);
  }
  void crush(SampleId id, const std::string& in, const std::string& hour) {
    milling::NewStep step;
    step.sample = id;
    step.kind = "crush";
    step.machine = crusher;
    step.mass_in = figure(in);
    step.done_at = on_may_5(hour);
    ASSERT_TRUE(milling::do_step(book, step).ok());
  }
  void clean(const std::string& way, const std::string& hour, const std::string& flush = "") {
    milling::NewCleaning fresh{crusher, way, on_may_5(hour), person, {}, false, {}};
    if (!flush.empty()) fresh.flush_mass = figure(flush);
    ASSERT_TRUE(milling::clean(book, fresh).ok());
  }
  std::vector<MachineUse> uses(std::size_t most = 10) { return *machine_uses(*connection, crusher, most); }
};

// By hand: the empty machine keeps 40 g of 300 g/t; (300 - 1) × 40/4040 = 2.96 g/t into rock of 1 g/t.
TEST_F(UsesOfAMachine, EachIsEstimatedFromWhatRanBefore) {
  const SampleId rich = rock("specimen", "specimen"), poor = rock("poor", "low");
  clean("brush", "08:00");
  crush(rich, "1.000 kg", "09:00");
  crush(poor, "4.00 kg", "10:00");
  clean("flush", "10:30", "500 g");
  crush(poor, "0.50 kg", "11:00");
  const auto all = uses();
  ASSERT_EQ(all.size(), 3u);
  EXPECT_FALSE(all[0].judged) << "nothing before it";
  EXPECT_TRUE(all[1].judged);
  EXPECT_NEAR(all[1].carried.carryover.in(unit::gram_per_tonne), 2.96, 0.005);
  EXPECT_NEAR(all[1].pct, 296, 0.5);
  EXPECT_TRUE(all[1].above);
  EXPECT_LT(all[2].pct, all[1].pct) << "flushed";
  EXPECT_EQ(uses(1).size(), 1u);
  EXPECT_EQ(uses(1)[0].step.id, all[2].step.id) << "the last ones";
}

TEST_F(UsesOfAMachine, NoneIsJudgedWithoutACleaning) {
  crush(rock("specimen", "specimen"), "1.000 kg", "09:00");
  crush(rock("poor", "low"), "4.00 kg", "10:00");
  for (const MachineUse& use : uses()) EXPECT_FALSE(use.judged);
}

TEST_F(UsesOfAMachine, ASampleDoesNotDirtyItself) {
  clean("brush", "08:00");
  const SampleId twice = rock("twice", "rich");
  crush(twice, "2 kg", "09:00");
  crush(twice, "2 kg", "10:00");
  EXPECT_FALSE(uses()[1].judged);
}

struct Outlook : UsesOfAMachine {
  SampleId rich = rock("rich", "rich"), poor = rock("poor", "low");
  milling::NewShare share(SampleId id, const std::string& mass, const std::string& wanted = "") {
    milling::NewShare one{id, {}, {}, {}};
    if (!mass.empty()) one.mass = figure(mass);
    if (!wanted.empty()) one.share = figure(wanted, Measure::share);
    return one;
  }
  CompositeOutlook of(const std::vector<milling::NewShare>& shares) { return *composite_outlook(*connection, shares, {}); }
};

// By the classes of the settings, weighted by mass.
TEST_F(Outlook, SaysSharesAndGradeByMass) {
  const auto outlook = of({share(rich, "100 g"), share(poor, "300 g")});
  EXPECT_DOUBLE_EQ(outlook.total.in(unit::gram), 400);
  EXPECT_DOUBLE_EQ(outlook.parts[0]->in(unit::percent), 25);
  const lab::Settings settings;
  EXPECT_NEAR(outlook.grade->in(unit::gram_per_tonne), (settings.rich_g_t + 3 * settings.low_g_t) / 4, 1e-9);
  EXPECT_EQ(outlook.basis, GradeBasis::expected);
  EXPECT_EQ(of({share(sample, "1 g"), share(poor, "1 g")}).basis, GradeBasis::unknown) << "the least that is known";
}

TEST_F(Outlook, SaysWhatIsStillToBeTaken) {
  const auto outlook = of({share(rich, "250 g", "25 %"), share(poor, "", "50 %"), share(sample, "", "25 %")});
  EXPECT_FALSE(outlook.to_take[0]);
  EXPECT_DOUBLE_EQ(outlook.to_take[1]->in(unit::gram), 500);
  EXPECT_DOUBLE_EQ(outlook.to_take[2]->in(unit::gram), 250);
  EXPECT_FALSE(outlook.grade) << "not weighed whole yet";
  EXPECT_FALSE(of({share(rich, "250 g", "25 %"), share(poor, "")}).to_take[1]) << "no share is wanted of it";
  EXPECT_FALSE(of({share(rich, "", "25 %"), share(poor, "", "75 %")}).to_take[0]) << "nothing is weighed";
  EXPECT_TRUE(of({}).parts.empty());
}

}  // namespace
}  // namespace prillbook::results
