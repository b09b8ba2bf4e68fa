// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/results/pan_account.h"

#include <gmock/gmock.h>

#include "core/units/units.h"
#include "tests/support/sieve_bench.h"

namespace prillbook::results {
namespace {

using testing::ElementsAre;
using testing::IsEmpty;
using testing_support::figure;
using testing_support::SieveBench;

struct PanAccounts : testing::Test, SieveBench {
  PortionId panned_portion;

  // 1 kg panned, a bead of 10 mg at 900 ‰: 9 mg of gold.
  PanTestId pan_one(const std::string& bead = "10 mg") {
    const PanTestId test = panned("1 kg", "300 um", bead);
    panned_portion = gravity::pan_test(*connection, test)->portion;
    return test;
  }
  void left(PanTestId test, const std::string& purpose, const std::string& mass) {
    ASSERT_TRUE(gravity::weigh_product(book, test, purpose, figure(mass), person).ok());
  }
  void assay_product(const std::string& purpose, const std::string& portion, const std::string& bead) {
    for (const portions::Portion& one : *portions::portions_of(*connection, sample))
      if (one.parent == panned_portion && one.purpose == purpose) fired(*cut(portion, "fire", one.id), bead);
  }
  double mg(const std::optional<GoldMass>& gold) { return gold ? gold->value.in(unit::milligram) : -1; }
  PanAccount account() { return result().pan_accounts.at(0); }
  // One pan test with its remainder and its tail assayed, and the rock fired.
  PanAccount account_of_all_parts() {
    const PanTestId test = pan_one();
    left(test, "remainder", "20 g");
    left(test, "tail", "975 g");
    assay_product("remainder", "10 g", "0.5 mg");
    assay_product("tail", "50 g", "0.05 mg");
    fired(*cut("50 g", "fire"), "0.6 mg");
    return account();
  }
};

TEST_F(PanAccounts, NamesWhatIsMissing) {
  pan_one();
  const PanAccount held = account();
  EXPECT_THAT(held.missing, ElementsAre("the remainder", "the tail", "fire"));
  EXPECT_EQ(held.verdict, GoldBalance::incomplete);
  EXPECT_FALSE(held.not_accounted);
  EXPECT_NEAR(mg(held.found), 9, 1e-9);
}

TEST_F(PanAccounts, MassOfTheParts) {
  const PanTestId test = pan_one();
  left(test, "remainder", "20 g");
  left(test, "tail", "975 g");
  ASSERT_TRUE(readings::enter(book, history::fields::pan_test::magnetite, test.value,
                              readings::cell_of(readings::Figure{figure("1.5 g")}))
                  .ok());
  EXPECT_NEAR(account().not_accounted->in(unit::gram), 3.5, 1e-9);
}

// 9 mg in the bead, 20 g at 45 g/t are 0.9 mg, 975 g at 0.9 g/t are 0.8775 mg; the rock at 10.8 g/t held 10.8 mg.
TEST_F(PanAccounts, GoldOfThePartsAgainstFire) {
  const PanAccount held = account_of_all_parts();
  EXPECT_THAT(held.missing, IsEmpty());
  EXPECT_NEAR(mg(held.in_remainder), 0.9, 1e-9);
  EXPECT_NEAR(mg(held.in_tail), 0.8775, 1e-9);
  EXPECT_NEAR(mg(held.found), 10.7775, 1e-9);
  EXPECT_NEAR(mg(held.head), 10.8, 1e-9);
  EXPECT_NEAR(mg(held.gold_gap), 0.0225, 1e-9);
  EXPECT_EQ(held.verdict, GoldBalance::closes);
  EXPECT_FALSE(held.sampling_judged);
}

// Dried before it was cut: the moisture is off already, in remainder and tail as well.
TEST_F(PanAccounts, RockThatWasDriedBeforeIsNotDriedAgain) {
  milling::NewStep drying;
  drying.sample = sample;
  drying.kind = "dry";
  drying.mass_in = figure("4.000 kg");
  drying.mass_out = figure("3.800 kg");
  ASSERT_TRUE(milling::do_step(book, drying).ok());
  ASSERT_TRUE(readings::enter(book, history::fields::sample::moisture, sample.value,
                              readings::cell_of(readings::Figure{figure("5 %", Measure::share)}))
                  .ok());
  const PanAccount held = account_of_all_parts();
  EXPECT_NEAR(mg(held.in_remainder), 0.9, 1e-9);
  EXPECT_NEAR(mg(held.in_tail), 0.8775, 1e-9);
  EXPECT_NEAR(mg(held.head), 10.8, 1e-9);
  ASSERT_TRUE(result().comparison);
  ASSERT_TRUE(result().comparison->balance);
  EXPECT_NEAR(result().comparison->balance->calculated_head.value.in(unit::gram_per_tonne), 10.7775, 1e-9) << "of 1 kg, dry";
}

TEST_F(PanAccounts, GoldThatIsNotFoundAgain) {
  const PanTestId test = pan_one("5 mg");
  left(test, "remainder", "20 g");
  left(test, "tail", "975 g");
  assay_product("remainder", "10 g", "0.5 mg");
  assay_product("tail", "50 g", "0.05 mg");
  fired(*cut("50 g", "fire"), "0.6 mg");
  EXPECT_EQ(account().verdict, GoldBalance::short_of_head);
}

// The same gap, with a grain so coarse that chance may well have made it.
TEST_F(PanAccounts, ACoarseGrainWidensTheInterval) {
  const PanTestId test = pan_one("8 mg");
  left(test, "remainder", "20 g");
  left(test, "tail", "975 g");
  assay_product("remainder", "10 g", "0.5 mg");
  assay_product("tail", "50 g", "0.05 mg");
  fired(*cut("50 g", "fire"), "0.6 mg");
  ASSERT_EQ(account().verdict, GoldBalance::short_of_head);
  ASSERT_TRUE(readings::enter(book, history::fields::pan_test::largest_colour, test.value,
                              readings::cell_of(readings::Figure{figure("500 um", Measure::opening)}))
                  .ok());
  EXPECT_EQ(account().verdict, GoldBalance::closes);
  EXPECT_TRUE(account().sampling_judged);
}

TEST_F(PanAccounts, EachPanTestHasItsOwnProducts) {
  const PanTestId first = pan_one();
  left(first, "tail", "980 g");
  assay_product("tail", "50 g", "0.05 mg");
  panned("1 kg", "150 um", "11 mg");
  const auto accounts = result().pan_accounts;
  ASSERT_EQ(accounts.size(), 2u);
  EXPECT_NEAR(mg(accounts[0].in_tail), 0.882, 1e-9);
  EXPECT_FALSE(accounts[1].in_tail);
}

TEST_F(PanAccounts, TheSieveAnalysisOfTheSameSplit) {
  const PanTestId test = pan_one();
  EXPECT_EQ(sieved_beside(record(), panned_portion), nullptr);
  const auto other = cut("100 g", "retain");
  sieved(*cut("50 g", "sieve", *other), stack({}, "250, 150 µm"), {"10 g", "20 g", "20 g"});
  EXPECT_EQ(sieved_beside(record(), panned_portion), nullptr) << "cut from another portion";
  const auto beside = sieved(*cut("100 g", "sieve"), stack("b", "300, 150 µm"), {"10 g", "40 g", "50 g"});
  const SampleRecord held = record();
  ASSERT_NE(sieved_beside(held, panned_portion), nullptr);
  EXPECT_EQ(sieved_beside(held, panned_portion)->id, beside);
  EXPECT_TRUE(test);
}

}  // namespace
}  // namespace prillbook::results
