// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/format.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include "core/history/fields.h"
#include "core/milling/composites.h"
#include "core/milling/machines.h"
#include "core/milling/plans.h"
#include "core/milling/statements.h"
#include "core/milling/steps.h"
#include "tests/support/masses.h"
#include "tests/support/records.h"

namespace prillbook::milling {
namespace {

using testing_support::figure;
using testing_support::LabWithSample;

Instant at(const std::string& hour) { return *parse_iso("2026-05-05T" + hour + "+02:00"); }

struct MillingTest : testing::Test, LabWithSample<> {
  MachineId crusher = *add_machine(book, "jaw crusher", "crusher");

  NewStep crushing(const std::string& in, const std::string& out, const std::string& hour) {
    NewStep step;
    step.sample = sample;
    step.kind = "crush";
    step.machine = crusher;
    step.mass_in = figure(in);
    step.mass_out = figure(out);
    step.done_at = at(hour);
    return step;
  }
  NewStep splitting(const std::string& in, std::vector<NewPart> parts, const std::string& hour) {
    NewStep step;
    step.sample = sample;
    step.kind = "split";
    step.method = "riffle";
    step.mass_in = figure(in);
    step.done_at = at(hour);
    step.parts = std::move(parts);
    step.closed = true;
    return step;
  }
  std::optional<Mass> left(PortionId parent = {}) {
    return portions::left_of(*portions::portions_of(*connection, sample), figure("4 kg"), parent,
                             *portions::losses_of(*connection, sample));
  }
  ErrorCode refused(const NewStep& step) {
    const auto done = do_step(book, step);
    EXPECT_FALSE(done.ok());
    return done ? ErrorCode::cancelled : done.error().code;
  }
};

TEST_F(MillingTest, WhatIsLeftCountsTheLosses) {
  ASSERT_TRUE(do_step(book, crushing("4 kg", "3.97 kg", "09:00")).ok());
  EXPECT_DOUBLE_EQ(left()->in(unit::gram), 3970);
  const auto split =
      do_step(book, splitting("3.97 kg", {{"split", figure("1.98 kg"), {}}, {"reject", figure("1.97 kg"), {}}}, "09:30"));
  ASSERT_TRUE(split.ok()) << split.error().detail;
  EXPECT_NEAR(left()->in(unit::gram), 0, 1e-6);
  const auto portions = *portions::portions_of(*connection, sample);
  ASSERT_EQ(portions.size(), 2u);
  EXPECT_EQ(portions[0].number, 1);
  EXPECT_EQ(portions[1].number, 2);
  EXPECT_EQ(portions[0].step, split->step);
  EXPECT_EQ(portions[0].cut_at, at("09:30"));
}

TEST_F(MillingTest, OverdrawingWhatTheStepsLeftIsRefused) {
  ASSERT_TRUE(do_step(book, crushing("4 kg", "3.5 kg", "09:00")).ok()) << "a real reading is kept, however odd";
  const auto cut_all = cut("3.99 kg", "fire");
  ASSERT_FALSE(cut_all.ok());
  EXPECT_EQ(cut_all.error().code, ErrorCode::overdrawn);
  EXPECT_EQ(cut_all.error().arguments.back(), "3.5 kg");
  EXPECT_TRUE(cut("3.5 kg", "fire").ok());
}

TEST_F(MillingTest, DryingGivesTheMoisture) {
  NewStep drying = crushing("4 kg", "3.8 kg", "09:00");
  drying.kind = "dry";
  drying.machine = {};
  const auto done = do_step(book, drying);
  EXPECT_NEAR(moisture_of(*step(*connection, done->step))->in(unit::percent), 5, 1e-9);
  EXPECT_FALSE(balance_of(*step(*connection, done->step), {}, {})) << "water is no loss of rock";
}

TEST_F(MillingTest, BadStepsAreRefused) {
  EXPECT_EQ(refused(crushing("0 kg", "1 kg", "09:00")), ErrorCode::out_of_range);
  EXPECT_EQ(refused(crushing("4 kg", "0 kg", "09:00")), ErrorCode::out_of_range);
  EXPECT_EQ(refused(splitting("4 kg", {{"split", figure("0 g"), {}}}, "09:00")), ErrorCode::out_of_range);
  NewStep open = splitting("4 kg", {{"split", {}, {}}}, "09:00");
  EXPECT_EQ(refused(open), ErrorCode::inconsistent) << "closed without the mass of a part";
  NewStep before_arrival = crushing("4 kg", "3.9 kg", "09:00");
  before_arrival.done_at = parse_iso("2026-05-03T09:00+02:00").value();
  EXPECT_EQ(refused(before_arrival), ErrorCode::inconsistent);
  NewStep backwards = crushing("4 kg", "3.9 kg", "09:00");
  backwards.began_at = at("10:00");
  EXPECT_EQ(refused(backwards), ErrorCode::inconsistent);
  NewStep wrong_method = crushing("4 kg", "3.9 kg", "09:00");
  wrong_method.method = "riffle";
  EXPECT_EQ(refused(wrong_method), ErrorCode::inconsistent);
  EXPECT_TRUE(steps_of(*connection, sample)->empty()) << "a refused step leaves nothing behind";
}

TEST_F(MillingTest, AStepBeforeItsPortionWasCutIsRefused) {
  const auto split = do_step(book, splitting("4 kg", {{"split", figure("2 kg"), {}}, {"reject", figure("2 kg"), {}}}, "10:00"));
  NewStep early = crushing("2 kg", "1.99 kg", "09:30");
  early.portion = split->parts.front();
  EXPECT_EQ(refused(early), ErrorCode::inconsistent);
  early.done_at = at("10:30");
  EXPECT_TRUE(do_step(book, early).ok());
  early.sample = log_sample("another", "4 kg");
  EXPECT_EQ(refused(early), ErrorCode::inconsistent) << "another sample's portion";
}

TEST_F(MillingTest, AMachineIsUsedOrCleanedNotBoth) {
  NewStep use = crushing("4 kg", "3.97 kg", "10:00");
  use.began_at = at("09:00");
  ASSERT_TRUE(do_step(book, use).ok());
  const NewCleaning inside{crusher, "brush", at("09:30"), person, {}, false, {}};
  EXPECT_EQ(clean(book, inside).error().code, ErrorCode::conflict);
  EXPECT_TRUE(clean(book, {crusher, "brush", at("10:00"), person, {}, false, {}}).ok());
  ASSERT_TRUE(clean(book, {crusher, "air", at("11:30"), person, {}, false, {}}).ok());
  NewStep across = crushing("3 kg", "2.97 kg", "12:00");
  across.began_at = at("11:00");
  EXPECT_EQ(refused(across), ErrorCode::conflict);
  NewStep within = crushing("3 kg", "2.97 kg", "09:40");
  EXPECT_EQ(refused(within), ErrorCode::conflict) << "in other use at that time";
}

TEST_F(MillingTest, ARetiredMachineIsRefused) {
  ASSERT_TRUE(readings::enter(book, history::fields::machine::retired_at, crusher.value, to_iso(at("08:00"))).ok());
  EXPECT_EQ(refused(crushing("4 kg", "3.97 kg", "09:00")), ErrorCode::conflict);
  EXPECT_EQ(clean(book, {crusher, "brush", at("09:00"), person, {}, false, {}}).error().code, ErrorCode::conflict);
}

TEST_F(MillingTest, FlushesHaveAMass) {
  EXPECT_EQ(clean(book, {crusher, "flush", at("09:00"), person, {}, false, {}}).error().code, ErrorCode::missing_key);
  EXPECT_EQ(clean(book, {crusher, "flush", at("09:00"), person, figure("0 g"), false, {}}).error().code, ErrorCode::out_of_range);
  EXPECT_EQ(clean(book, {crusher, "brush", at("09:00"), person, figure("5 g"), false, {}}).error().code, ErrorCode::inconsistent);
}

TEST_F(MillingTest, OneKeyRepeatsTheLastCleaning) {
  EXPECT_EQ(clean_again(book, crusher, person).error().code, ErrorCode::not_found);
  ASSERT_TRUE(clean(book, {crusher, "flush", {}, person, figure("500 g"), true, {}}).ok());
  ASSERT_TRUE(clean_again(book, crusher, person).ok());
  const auto all = *cleanings_of(*connection, crusher);
  ASSERT_EQ(all.size(), 2u);
  EXPECT_EQ(all[1].way, "flush");
  EXPECT_EQ(all[1].flush_mass->typed, "500 g");
  EXPECT_TRUE(all[1].kept);
  EXPECT_GT(all[1].cleaned_at.utc_ms, all[0].cleaned_at.utc_ms);
}

TEST_F(MillingTest, ACompositeTakesItsSharesFromTheirSamples) {
  const SampleId other = log_sample("B", "2 kg");
  const auto made = make_composite(
      book, {consignment, "A and B", {{sample, {}, figure("1 kg"), {}}, {other, {}, figure("0.5 kg"), {}}}, {}, person});
  ASSERT_TRUE(made.ok()) << made.error().detail;
  EXPECT_DOUBLE_EQ(custody::sample(*connection, made->sample)->mass_received->mass().in(unit::gram), 1500);
  EXPECT_DOUBLE_EQ(left()->in(unit::gram), 3000);
  const auto shares = *shares_of(*connection, made->step);
  ASSERT_EQ(shares.size(), 2u);
  EXPECT_EQ(shares[1].sample, other);
  const auto too_much = add_share(book, made->step, {other, {}, figure("1.6 kg"), {}});
  EXPECT_EQ(too_much.error().code, ErrorCode::overdrawn);
  ASSERT_TRUE(add_share(book, made->step, {other, {}, figure("1 kg"), {}}).ok());
  EXPECT_DOUBLE_EQ(custody::sample(*connection, made->sample)->mass_received->mass().in(unit::gram), 2500);
}

TEST_F(MillingTest, ACompositeIsNotPutIntoItself) {
  const SampleId other = log_sample("B", "2 kg");
  const auto first =
      make_composite(book, {consignment, "AB", {{sample, {}, figure("1 kg"), {}}, {other, {}, figure("1 kg"), {}}}, {}, person});
  const auto second = make_composite(
      book, {consignment, "AB A", {{first->sample, {}, figure("1 kg"), {}}, {sample, {}, figure("1 kg"), {}}}, {}, person});
  ASSERT_TRUE(second.ok());
  EXPECT_EQ(add_share(book, first->step, {first->sample, {}, figure("1 g"), {}}).error().code, ErrorCode::conflict);
  EXPECT_EQ(add_share(book, first->step, {second->sample, {}, figure("1 g"), {}}).error().code, ErrorCode::conflict);
  EXPECT_EQ(make_composite(book, {consignment, "one", {{sample, {}, figure("1 g"), {}}}, {}, person}).error().code,
            ErrorCode::too_small);
}

TEST_F(MillingTest, TheNewestPlanIsInForceAndTheQueueForgetsWhatWentThrough) {
  const SampleId other = log_sample("B", "2 kg");
  EXPECT_EQ(waiting_for(*connection, crusher, 10)->size(), 2u);
  EXPECT_FALSE(plan_in_force(*connection, crusher)->has_value());
  ASSERT_TRUE(keep_plan(book, crusher, person, {{0, other, figure("500 g"), 2}, {0, sample, {}, 0}}).ok());
  EXPECT_EQ(keep_plan(book, crusher, person, {}).error().code, ErrorCode::missing_key);
  EXPECT_EQ(keep_plan(book, crusher, person, {{0, other, {}, 0}, {0, other, {}, 0}}).error().code, ErrorCode::already_exists);
  const auto plan = *plan_in_force(*connection, crusher);
  ASSERT_TRUE(plan);
  EXPECT_EQ(plan->place_of(other)->number, 1);
  EXPECT_EQ(plan->place_of(other)->flushes, 2);
  ASSERT_TRUE(do_step(book, crushing("4 kg", "3.97 kg", "09:00")).ok());
  const auto waiting = *waiting_for(*connection, crusher, 10);
  ASSERT_EQ(waiting.size(), 1u);
  EXPECT_EQ(waiting[0].line.id, other);
  EXPECT_TRUE(waiting[0].mass);
  EXPECT_FALSE(waiting[0].tested);
}

// A sample cut up without any step is a pan-only job: nothing of it waits here.
TEST_F(MillingTest, APanOnlyJobDoesNotWait) {
  ASSERT_TRUE(cut("1 kg", "pan").ok());
  EXPECT_TRUE(waiting_for(*connection, crusher, 10)->empty());
  EXPECT_EQ(*count_waiting(*connection), 0);
}

TEST(SmallestChange, IsTheStepOrTheLastDigitTyped) {
  EXPECT_DOUBLE_EQ(smallest_change(figure("4.10 kg")).in(unit::gram), 10);
  EXPECT_DOUBLE_EQ(smallest_change(figure("4 kg")).in(unit::gram), 1000);
  EXPECT_DOUBLE_EQ(smallest_change(figure("0,022 g")).in(unit::gram), 0.001);
  readings::Reading weighed = figure("4.10 kg");
  weighed.step_g = 1;
  EXPECT_DOUBLE_EQ(smallest_change(weighed).in(unit::gram), 1);
}

// Mass in = masses cut + losses + what is left, whatever steps are made and whatever is refused.
RC_GTEST_PROP(Steps, KeepTheMassBalance, ()) {
  LabWithSample<> lab;
  std::vector<PortionId> held{PortionId{}};
  const auto kg_text = [](int grams) { return fmt::format("{} g", grams); };
  const int rounds = *rc::gen::inRange(1, 8);
  for (int round = 0; round < rounds; ++round) {
    const PortionId parent = held[*rc::gen::inRange<std::size_t>(0, held.size())];
    const auto before = portions::left_of(*portions::portions_of(*lab.connection, lab.sample), figure("4 kg"), parent,
                                          *portions::losses_of(*lab.connection, lab.sample));
    const int there = int(before->in(unit::gram));
    if (there < 1) continue;
    NewStep step;
    step.sample = lab.sample;
    step.portion = parent;
    step.mass_in = figure(kg_text(there));
    if (*rc::gen::arbitrary<bool>()) {
      step.kind = "crush";
      step.mass_out = figure(kg_text(*rc::gen::inRange(1, there + 1)));
    } else {
      step.kind = "split";
      const int first = *rc::gen::inRange(1, there + 1);
      step.parts.push_back({"split", figure(kg_text(first)), {}});
      if (first < there) step.parts.push_back({"reject", figure(kg_text(*rc::gen::inRange(1, there - first + 1))), {}});
      step.closed = true;
    }
    const auto done = do_step(lab.book, step);
    if (done)
      for (const PortionId part : done->parts) held.push_back(part);
  }
  const auto portions = *portions::portions_of(*lab.connection, lab.sample);
  const auto losses = *portions::losses_of(*lab.connection, lab.sample);
  for (const PortionId parent : held) {
    double had = 4000, out = 0;
    for (const portions::Portion& portion : portions) {
      if (portion.id == parent) had = portion.mass->value;
      if (portion.parent == parent) out += portion.mass->value;
    }
    for (const portions::Loss& loss : losses)
      if (loss.parent == parent) out += loss.mass.in(unit::gram);
    const double left = portions::left_of(portions, figure("4 kg"), parent, losses)->in(unit::gram);
    RC_ASSERT(std::abs(had - out - left) < 1e-6);
  }
}

TEST(Statements, AllCompile) {
  const auto connection = store::Connection::in_memory().value();
  for (const store::Sql* statement : sql::all) EXPECT_TRUE(connection->prepare_only(*statement).ok()) << statement->name;
}

}  // namespace
}  // namespace prillbook::milling
