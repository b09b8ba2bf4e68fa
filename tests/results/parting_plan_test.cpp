// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/results/parting_plan.h"

#include <gtest/gtest.h>

#include "tests/support/masses.h"
#include "tests/support/records.h"

namespace prillbook::results {
namespace {

using testing_support::figure;

weighing::Bead bead_of(const std::string& mass, const std::string& permil) {
  weighing::Bead bead;
  bead.id = BeadId{1};
  weighing::Weighing one;
  one.what = weighing::of_bead;
  one.mass = figure(mass);
  bead.weighings.push_back(one);
  bead.method = "colour";
  bead.fineness = figure(permil, Measure::fineness);
  return bead;
}

// 10 mg at 500 permil: 5 mg of gold want 15 mg of silver (three to one, Beringer p. 147), and 5 mg are there.
TEST(PartingPlan, QuartationByFineness) {
  const auto plan = parting_plan(bead_of("10 mg", "500"));
  ASSERT_TRUE(plan.ok() && *plan);
  EXPECT_NEAR((*plan)->ratio, 1, 1e-12);
  EXPECT_NEAR((*plan)->silver_to_add->in(unit::milligram), 10, 1e-9);
}

TEST(PartingPlan, WhatWasAddedCounts) {
  weighing::Bead bead = bead_of("10 mg", "500");
  bead.inquart = figure("10 mg");
  EXPECT_NEAR((*parting_plan(bead))->ratio, 3, 1e-12);
  EXPECT_NEAR((*parting_plan(bead))->silver_to_add->in(unit::milligram), 0, 1e-9);
}

TEST(PartingPlan, NothingIsToBeAddedOnceTheGoldWasWeighed) {
  weighing::Bead bead = bead_of("10 mg", "500");
  bead.fineness.reset();
  bead.method = "parted";
  EXPECT_FALSE(*parting_plan(bead)) << "not weighed yet";
  weighing::Weighing gold;
  gold.what = weighing::of_gold;
  gold.mass = figure("2 mg");
  bead.weighings.push_back(gold);
  EXPECT_NEAR((*parting_plan(bead))->ratio, 4, 1e-12);
  EXPECT_FALSE((*parting_plan(bead))->silver_to_add);
}

TEST(PartingPlan, BeadsMeltedTogetherAreOne) {
  weighing::Bead bead = bead_of("10 mg", "500");
  bead.melt = weighing::Melt{BeadId{1}, {BeadId{2}}, mg(20), {}};
  EXPECT_NEAR((*parting_plan(bead))->silver_to_add->in(unit::milligram), 20, 1e-9);
}

TEST(PartingPlan, NoGoldNoPlan) {
  EXPECT_FALSE(*parting_plan(bead_of("10 mg", "0")));
  EXPECT_FALSE(*parting_plan(weighing::Bead{}));
}

}  // namespace
}  // namespace prillbook::results
