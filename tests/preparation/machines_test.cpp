// SPDX-License-Identifier: GPL-3.0-or-later
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>

#include "core/preparation/composite.h"
#include "core/preparation/crushing_order.h"
#include "core/preparation/holdup.h"
#include "core/preparation/machine_chain.h"
#include "core/preparation/nomogram.h"
#include "core/preparation/splitting.h"
#include "core/preparation/step_balance.h"
#include "tests/support/masses.h"

namespace prillbook {
namespace {

Grade gpt(double value) { return {value, unit::gram_per_tonne}; }
double ppm(Grade grade) { return grade.in(unit::gram_per_tonne); }

OrderRules rules(double holdup_g = 20, double held_g_t = 0) {
  OrderRules rules;
  rules.holdup = g(holdup_g);
  rules.held = {g(holdup_g), gpt(held_g_t)};
  rules.floor = gpt(0.1);
  rules.flush = g(500);
  return rules;
}

// Mixing in its own direction and turned round.
RC_GTEST_PROP(HoldUp, IsLearnedBackFromTheFlushItGives, ()) {
  const double holdup = *rc::gen::inRange(1, 500), flush = *rc::gen::inRange(50, 3000);
  const double before = *rc::gen::inRange(20, 3000), barren = *rc::gen::inRange(0, 10) / 100.0;
  const double flushed = (before * holdup + barren * flush) / (holdup + flush);
  RC_PRE(flushed > barren * 1.001 && flushed < before * 0.999);
  const auto learned = holdup_of({gpt(before), g(flush), gpt(flushed), gpt(barren), gpt(1), gpt(0.1), {}});
  RC_ASSERT(learned.ok());
  RC_ASSERT(std::abs(learned->mass.in(unit::gram)-holdup) < 1e-6 * holdup);
  RC_ASSERT(learned->u > Mass{});
}

TEST(HoldUp, RefusesAFlushThatSaysNothing) {
  EXPECT_EQ(holdup_of({gpt(50), g(500), gpt(0.01), gpt(0.01), {}, {}, {}}).error().code, ErrorCode::inconsistent);
  EXPECT_EQ(holdup_of({gpt(50), g(500), gpt(50), {}, {}, {}, {}}).error().code, ErrorCode::inconsistent);
  EXPECT_EQ(holdup_of({gpt(50), g(0), gpt(5), {}, {}, {}, {}}).error().code, ErrorCode::out_of_range);
  EXPECT_EQ(holdup_of({gpt(-1), g(500), gpt(5), {}, {}, {}, {}}).error().code, ErrorCode::out_of_range);
}

TEST(HoldUp, UncertaintyOfTheMeanIsTheLargerOfBoth) {
  EXPECT_FALSE(mean_holdup({}));
  EXPECT_DOUBLE_EQ(mean_holdup({{g(20), g(3)}})->u.in(unit::gram), 3);
  EXPECT_NEAR(mean_holdup({{g(10), g(0.1)}, {g(30), g(0.1)}})->u.in(unit::gram), 10, 1e-9) << "scatter";
  EXPECT_NEAR(mean_holdup({{g(20), g(3)}, {g(20), g(4)}})->u.in(unit::gram), 2.5, 1e-9) << "carried";
}

// Foreign metal in all samples together is never more than what the machine and the samples before held.
RC_GTEST_PROP(Chain, CarriesNoMoreThanWasThere, ()) {
  const double holdup = *rc::gen::inRange(0, 300), held = *rc::gen::inRange(0, 5000);
  double there_g = holdup * held / 1e6;
  Held state{g(holdup), gpt(held)};
  const int count = *rc::gen::inRange(1, 12);
  for (int i = 0; i < count; ++i) {
    Passage passage{g(*rc::gen::inRange(1, 5000)), gpt(*rc::gen::inRange(0, 3000) / 10.0), {}, *rc::gen::inRange(0, 101) / 100.0};
    const int flushes = *rc::gen::inRange(0, 3);
    for (int k = 0; k < flushes; ++k) passage.flushes.push_back(g(*rc::gen::inRange(1, 2000)));
    const double held_g = state.mass.in(unit::gram)*ppm(state.grade) / 1e6;
    const auto risk = pass_through(g(holdup), state, passage);
    RC_ASSERT(risk.ok());
    RC_ASSERT(risk->foreign.in(unit::gram) <= held_g * (1 + 1e-9));
    RC_ASSERT(held_g <= there_g * (1 + 1e-9));
    there_g += passage.mass.in(unit::gram)*ppm(passage.grade) / 1e6;
    state = risk->after;
  }
}

TEST(Chain, OneStepIsTheMixing) {
  const auto risk = pass_through(g(20), {g(20), gpt(100)}, {g(1980), gpt(1), {g(500)}, 1});
  const auto mixed = mix_carryover({g(1980), gpt(100), gpt(1), g(20), {g(500)}});
  EXPECT_NEAR(ppm(risk->carried.apparent), ppm(mixed->apparent), 1e-12);
  EXPECT_NEAR(ppm(risk->after.grade), ppm(mixed->apparent), 1e-12);
  const auto brushed_first = pass_through(g(20), {g(20), gpt(100)}, {g(1990), gpt(0), {}, 0.5});
  EXPECT_NEAR(ppm(brushed_first->carried.apparent), 0.5, 1e-9);
  EXPECT_EQ(pass_through(g(20), {}, {g(1), gpt(1), {}, 1.5}).error().code, ErrorCode::out_of_range);
}

TEST(CrushingOrder, GoesPoorToRichAndOwesNoFlushThen) {
  const std::vector<WaitingRock> waiting{{1, g(2000), gpt(300), {}}, {2, g(2000), gpt(1), {}}, {3, g(2000), gpt(30), {}}};
  const auto order = crushing_order(waiting, rules());
  ASSERT_TRUE(order.ok());
  EXPECT_EQ(order->places[0].id, 2);
  EXPECT_EQ(order->places[1].id, 3);
  EXPECT_EQ(order->places[2].id, 1);
  EXPECT_EQ(order->flush_total, Mass{});
  const auto arrival = as_given(waiting, rules());
  EXPECT_GT(arrival->flush_total, Mass{});
  EXPECT_GT(arrival->places[1].flushes, 0) << "the poor sample behind the specimen";
}

TEST(CrushingOrder, UrgentSamplesGoFirstAndAreFlushedFor) {
  std::vector<WaitingRock> waiting{{1, g(2000), gpt(300), 5}, {2, g(2000), gpt(1), {}}, {3, g(2000), gpt(30), 20}};
  OrderRules by_day = rules();
  by_day.urgent_until = 7;
  const auto order = crushing_order(waiting, by_day);
  EXPECT_EQ(order->places[0].id, 1);
  EXPECT_EQ(order->places[1].id, 2);
  EXPECT_GT(order->places[1].flushes, 0);
  EXPECT_LE(order->places[1].carryover_pct, by_day.limit_pct);
  EXPECT_EQ(order->places[2].id, 3);
}

TEST(CrushingOrder, SaysWhereFlushesAreNotEnough) {
  OrderRules dirty = rules(400, 5000);
  dirty.most_flushes = 1;
  const auto order = crushing_order({{1, g(500), gpt(0), {}}}, dirty);
  EXPECT_TRUE(order->places[0].above_limit);
  EXPECT_EQ(order->places[0].flushes, 1);
  dirty.limit_pct = 0;
  EXPECT_EQ(crushing_order({}, dirty).error().field, "limit_pct");
}

std::vector<WaitingRock> any_rock(bool with_due) {
  std::vector<WaitingRock> waiting;
  const int count = *rc::gen::inRange(1, 15);
  for (int i = 0; i < count; ++i) {
    WaitingRock rock{i, g(*rc::gen::inRange(50, 6000)), gpt(*rc::gen::inRange(0, 5000) / 10.0), {}};
    if (with_due && *rc::gen::arbitrary<bool>()) rock.due = *rc::gen::inRange(0, 10);
    waiting.push_back(rock);
  }
  return waiting;
}

// Without due dates against arrival as it was; with them against arrival within the urgent and the others.
RC_GTEST_PROP(CrushingOrder, NeverCarriesMoreThanArrivalOrder, (bool with_due)) {
  std::vector<WaitingRock> waiting = any_rock(with_due);
  OrderRules set = rules(*rc::gen::inRange(0, 400), *rc::gen::inRange(0, 500));
  set.urgent_until = with_due ? 5 : INT64_MIN;
  set.most_flushes = 0;
  const auto order = crushing_order(waiting, set);
  std::stable_partition(waiting.begin(), waiting.end(),
                        [&](const WaitingRock& rock) { return rock.due && *rock.due <= set.urgent_until; });
  const auto arrival = as_given(waiting, set, false);
  RC_ASSERT(order.ok() && arrival.ok());
  RC_ASSERT(order->foreign_metal.in(unit::gram) <= arrival->foreign_metal.in(unit::gram) * (1 + 1e-9) + 1e-15);
  set.most_flushes = 5;
  RC_ASSERT(crushing_order(waiting, set)->foreign_metal.in(unit::gram) <=
            arrival->foreign_metal.in(unit::gram) * (1 + 1e-9) + 1e-15);
}

TEST(StepBalance, LimitAndTwiceTheWeighing) {
  EXPECT_FALSE(balance_step({g(4000), g(10)}, {{g(3970), g(10)}}, 1)->beyond) << "0.75 %";
  EXPECT_TRUE(balance_step({g(4000), g(10)}, {{g(3900), g(10)}}, 1)->beyond);
  EXPECT_TRUE(balance_step({g(4000), g(10)}, {{g(4100), g(10)}}, 1)->beyond) << "a gain";
  EXPECT_FALSE(balance_step({g(100), g(10)}, {{g(96), g(10)}}, 1)->beyond) << "within twice the weighing";
  EXPECT_EQ(balance_step({g(0), g(1)}, {{g(1), g(1)}}, 1).error().code, ErrorCode::out_of_range);
  EXPECT_EQ(balance_step({g(1), g(1)}, {}, 1).error().code, ErrorCode::too_small);
}

RC_GTEST_PROP(StepBalance, InIsOutAndLoss, ()) {
  const double in = *rc::gen::inRange(1, 100'000) / 10.0;
  std::vector<Weighed> out;
  const int parts = *rc::gen::inRange(1, 6);
  for (int i = 0; i < parts; ++i) out.push_back({g(*rc::gen::inRange(0, 50'000) / 10.0), g(0.1)});
  const auto balance = balance_step({g(in), g(0.1)}, out, 1);
  RC_ASSERT(std::abs((balance->out + balance->loss - balance->in).in(unit::gram)) < 1e-9 * in + 1e-9);
}

TEST(Composite, SharesAreProportions) {
  const auto masses = masses_for_shares(g(1000), {1, 3});
  EXPECT_DOUBLE_EQ((*masses)[0].in(unit::gram), 250);
  EXPECT_EQ(masses_for_shares(g(1000), {1, 0}).error().code, ErrorCode::out_of_range);
  EXPECT_EQ(composite_grade({}).error().code, ErrorCode::too_small);
  EXPECT_EQ(composite_grade({{0, gpt(1)}}).error().code, ErrorCode::out_of_range);
}

// Splitting down in one stage or in two at one top size comes to the same: 1/M - 1/L telescopes.
RC_GTEST_PROP(Stages, VariancesOfOneTopSizeTelescope, ()) {
  const double lot = *rc::gen::inRange(2000, 100'000), middle = *rc::gen::inRange(500, 2000), taken = *rc::gen::inRange(10, 500);
  GyInput common;
  common.liberation = Opening(100, unit::micrometre);
  common.grade = gpt(5);
  const Opening top(2, unit::millimetre);
  const auto one = error_of_stages({{top, g(lot), g(taken), {}}}, common);
  const auto two = error_of_stages({{top, g(lot), g(middle), {}}, {top, g(middle), g(taken), {}}}, common);
  RC_ASSERT(std::abs(one->fundamental_pct - two->fundamental_pct) < 1e-9 * one->fundamental_pct);
}

TEST(Stages, TheWayOfSplittingAdds) {
  GyInput common;
  common.liberation = Opening(100, unit::micrometre);
  common.grade = gpt(5);
  const SplitStage riffled{Opening(75, unit::micrometre), g(1000), g(500), SplitMethod::riffle};
  SplitStage scooped = riffled;
  scooped.method = SplitMethod::scoop;
  EXPECT_GT(error_of_stages({scooped}, common)->total_pct, error_of_stages({riffled}, common)->total_pct);
  EXPECT_EQ(error_of_stages({scooped}, common)->fundamental_pct, error_of_stages({riffled}, common)->fundamental_pct);
}

// Every line has the slope of 1/√M, and the way goes along a line where it splits.
TEST(Nomogram, LinesFallWithTheRootOfTheMass) {
  GyInput common;
  common.liberation = Opening(100, unit::micrometre);
  common.grade = gpt(5);
  const std::vector<SplitStage> stages{{Opening(2, unit::millimetre), g(4000), g(1000), {}},
                                       {Opening(75, unit::micrometre), g(1000), g(30), {}}};
  const auto nomogram = nomogram_of(common, stages);
  ASSERT_TRUE(nomogram.ok());
  for (const NomogramLine& line : nomogram->lines)
    EXPECT_NEAR(line.points[0].sd_pct / line.points[1].sd_pct, std::sqrt(line.points[1].mass_g / line.points[0].mass_g), 1e-9);
  ASSERT_EQ(nomogram->way.size(), 4u);
  EXPECT_NEAR(nomogram->way[1].sd_pct / nomogram->way[0].sd_pct, 2, 1e-9) << "a quarter of the mass, twice the error";
  EXPECT_LT(nomogram->way[2].sd_pct, nomogram->way[1].sd_pct) << "crushing drops to a finer line";
  EXPECT_LE(nomogram->least_g, 30);
  EXPECT_GE(nomogram->most_g, 4000);
  EXPECT_EQ(nomogram_of(common, {}).error().code, ErrorCode::too_small);
}

}  // namespace
}  // namespace prillbook
