// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/results/compared.h"

#include <gtest/gtest.h>

#include "core/gravity/pan_test.h"
#include "core/results/lists.h"
#include "tests/support/quality_bench.h"

namespace prillbook::results {
namespace {

ComparedSample one(std::int64_t id, const std::string& client, const std::string& place, const std::string& day, double recovery,
                   Verdict verdict) {
  ComparedSample sample;
  sample.sample = SampleId{id};
  sample.client = client;
  sample.place = place;
  sample.arrived = *parse_iso(day + "T09:00+02:00");
  sample.recovery = recovery;
  sample.verdict = verdict;
  return sample;
}

const std::vector<ComparedSample> few{one(1, "Larch", "north", "2026-04-30", 0.5, Verdict::gold_left_behind),
                                      one(2, "Larch", "south", "2026-05-04", 0.7, Verdict::no_gap_shown),
                                      one(3, "Brindle", "north", "2026-05-05", 1.2, Verdict::pan_exceeds_fire),
                                      one(4, "Larch", "", "2025-12-31", 0.9, Verdict::gold_left_behind)};

TEST(ComparedSamples, AreChosenByClientPlaceAndPeriod) {
  EXPECT_EQ(chosen(few, {}).size(), 4u);
  EXPECT_EQ(chosen(few, {"Larch", "", ""}).size(), 3u);
  EXPECT_EQ(chosen(few, {"Larch", "north", ""}).size(), 1u);
  EXPECT_EQ(chosen(few, {"", "", "2026"}).size(), 3u);
  EXPECT_EQ(chosen(few, {"", "", "2026-05"}).size(), 2u);
}

TEST(ComparedSamples, GroupsCountAndTakeTheMiddle) {
  const auto clients = grouped(few, GroupBy::client);
  ASSERT_EQ(clients.size(), 2u);
  EXPECT_EQ(clients[1].name, "Larch");
  EXPECT_EQ(clients[1].samples, 3u);
  EXPECT_EQ(clients[1].left_behind, 2u);
  EXPECT_DOUBLE_EQ(*clients[1].median_recovery, 0.7);
  EXPECT_DOUBLE_EQ(*clients[1].least, 0.5);
  EXPECT_DOUBLE_EQ(*clients[1].most, 0.9);
  EXPECT_EQ(grouped(few, GroupBy::month).front().name, "2026-05") << "the newest first";
  EXPECT_DOUBLE_EQ(*grouped(few, GroupBy::month).front().median_recovery, 0.95);
  EXPECT_EQ(grouped(few, GroupBy::place).front().name, "") << "not said";
}

// A stock that was panned and fired compares the lab with itself, not a client's rock.
TEST(ComparedSamples, TheStockOfAControlIsNone) {
  testing_support::QualityBench bench;
  const auto panned_and_fired = [&](SampleId sample) {
    const auto portion = [&](const char* purpose) {
      return portions::cut(bench.book, {sample, {}, purpose, testing_support::figure("100 g"), {}, bench.person, {}}).value();
    };
    bench.weigh(gravity::start_pan_test(bench.book, {portion("pan"), {}, bench.person, {}})->bead, "0.5 mg");
    bench.gold_of(bench.in_run(portion("fire"), {}), "0.5 mg");
  };
  panned_and_fired(bench.sample);
  bench.add_material("house pulp", "reference");
  panned_and_fired(controls::materials(*bench.connection)->at(0).stock);
  ComparedList list(*bench.connection);
  ASSERT_TRUE(list.begin().ok());
  EXPECT_EQ(list.owed(), 1u);
  EXPECT_EQ(count_comparable_samples(*bench.connection).value(), 1);
}

}  // namespace
}  // namespace prillbook::results
