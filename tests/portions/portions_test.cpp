// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/portions/portions.h"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "core/portions/statements.h"
#include "core/units/units.h"
#include "tests/support/records.h"

namespace prillbook::portions {
namespace {

using testing_support::figure;
using testing_support::LabWithSample;

TEST(Portions, OverdrawingASampleIsRefusedAndSaysHowMuchThereWas) {
  LabWithSample<> lab;
  ASSERT_TRUE(lab.cut("3 kg", "pan").ok());
  const auto too_much = lab.cut("1001 g", "fire");
  ASSERT_FALSE(too_much.ok());
  EXPECT_EQ(too_much.error().code, ErrorCode::overdrawn);
  EXPECT_EQ(too_much.error().arguments, (std::vector<std::string>{"4.001 kg", "4 kg"}));
  EXPECT_EQ(portions_of(*lab.connection, lab.sample)->size(), 1u) << "a refused cut leaves nothing behind";
  EXPECT_TRUE(lab.cut("1 kg", "fire").ok());
}

TEST(Portions, OverdrawingAPortionIsRefused) {
  LabWithSample<> lab;
  const auto pan = lab.cut("1 kg", "pan");
  EXPECT_TRUE(lab.cut("400 g", "fire", *pan).ok());
  EXPECT_EQ(lab.cut("601 g", "retain", *pan).error().code, ErrorCode::overdrawn);
  const auto all = portions_of(*lab.connection, lab.sample);
  EXPECT_DOUBLE_EQ(left_of(*all, figure("4 kg"), *pan)->in(unit::gram), 600);
  EXPECT_DOUBLE_EQ(left_of(*all, figure("4 kg"), PortionId{})->in(unit::gram), 3000);
}

TEST(Portions, ASampleThatWasNotWeighedGivesWhatIsAskedOfIt) {
  LabWithSample<> lab;
  const SampleId unweighed = lab.log_sample("no scale at the counter", "");
  EXPECT_TRUE(cut(lab.book, {unweighed, {}, "pan", figure("1 kg"), {}, {}, {}}).ok());
}

TEST(Portions, CorrectingAMassKeepsTheRule) {
  LabWithSample<> lab;
  const auto pan = lab.cut("1 kg", "pan");
  ASSERT_TRUE(lab.cut("400 g", "fire", *pan).ok());
  EXPECT_EQ(set_mass(lab.book, *pan, figure("300 g"), "misread").error().code, ErrorCode::overdrawn);
  EXPECT_EQ(set_mass(lab.book, *pan, figure("5 kg"), "misread").error().code, ErrorCode::overdrawn);
  EXPECT_EQ(set_mass(lab.book, *pan, figure("0 g"), "misread").error().code, ErrorCode::out_of_range);
  EXPECT_TRUE(set_mass(lab.book, *pan, figure("1.2 kg"), "misread").ok());
  EXPECT_EQ(set_received_mass(lab.book, lab.sample, figure("1 kg"), "misread").error().code, ErrorCode::overdrawn);
}

TEST(Portions, AParentOfAnotherSampleIsRefused) {
  LabWithSample<> lab;
  const auto pan = lab.cut("1 kg", "pan");
  const SampleId other = lab.log_sample("B", "1 kg");
  EXPECT_EQ(cut(lab.book, {other, *pan, "fire", figure("1 g"), {}, {}, {}}).error().code, ErrorCode::inconsistent);
}

TEST(Portions, TailAndRemainderMayGainALittleIron) {
  LabWithSample<> lab;
  const auto pan = lab.cut("1 kg", "pan");
  EXPECT_TRUE(lab.cut("1010 g", "tail", *pan).ok());
  EXPECT_EQ(lab.cut("20 g", "remainder", *pan).error().code, ErrorCode::overdrawn);
}

RC_GTEST_PROP(Portions, WhateverIsCutTheTreeClosesAndNothingIsOverdrawn, ()) {
  LabWithSample<> lab;
  std::vector<PortionId> parents{PortionId{}};
  const auto cuts =
      *rc::gen::container<std::vector<std::pair<int, int>>>(rc::gen::pair(rc::gen::inRange(1, 3000), rc::gen::inRange(0, 100)));
  for (const auto& [grams, pick] : cuts) {
    const PortionId parent = parents[std::size_t(pick) % parents.size()];
    const auto made = lab.cut(std::to_string(grams) + " g", "retain", parent);
    const auto all = portions_of(*lab.connection, lab.sample);
    RC_ASSERT(check_tree(*all, figure("4 kg"), {2, 0}).ok());
    RC_ASSERT(left_of(*all, figure("4 kg"), parent)->in(unit::gram) >= 0);
    if (made) parents.push_back(*made);
  }
}

TEST(Portions, WhatIsLeftIsSaidWithoutTheDustOfBinarySums) {
  const auto said = [](Mass mass) { return in_words(mass).number + " " + std::string(in_words(mass).unit); };
  EXPECT_EQ(said(Mass(4100, unit::gram) - Mass(500.3, unit::gram)), "3.5997 kg");
  EXPECT_EQ(said(Mass(0.3, unit::gram) - Mass(0.1, unit::gram) - Mass(0.2, unit::gram)), "0 g");
  EXPECT_EQ(said(Mass(999.9, unit::gram)), "999.9 g");
  EXPECT_EQ(said(Mass(1000, unit::gram)), "1 kg");
}

TEST(Statements, AllCompile) {
  const auto connection = store::Connection::in_memory().value();
  for (const store::Sql* statement : sql::all) EXPECT_TRUE(connection->prepare_only(*statement).ok()) << statement->name;
}

}  // namespace
}  // namespace prillbook::portions
