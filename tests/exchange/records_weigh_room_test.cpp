// SPDX-License-Identifier: GPL-3.0-or-later
// What a text says of the weigh room: beads in water, trays, cups, check weights, the line of a balance.
#include <gtest/gtest.h>

#include "core/exchange/records.h"
#include "core/results/sample_result.h"
#include "core/trays/trays.h"
#include "core/weighing/check_weights.h"
#include "tests/support/notebook.h"

namespace prillbook::exchange {
namespace {

using testing_support::MemoryNotebook;

TEST(RecordsOfTheWeighRoom, ABeadWeighedInWater) {
  const auto with_bead = [](const std::string& bead) {
    return R"({"format":"records","version":1,"people":[{"initials":"HM"}],"balances":[{"name":"b","step":"0.01 mg"}],
      "clients":[{"name":"C"}],"consignments":[{"client":"C","samples":[{"mark":"A","mass_received":"4 kg","portions":[
        {"purpose":"pan","mass":"2 kg","pan_test":{"bead":{)" +
           bead + R"(}}}]}]}]})";
  };
  MemoryNotebook notebook;
  const auto loaded = load_records(*notebook.journal, with_bead(R"("weighings":[{"mass":"40 mg"}],
        "density":{"in_air":"40.00 mg","in_water":"37.51 mg","balance":"b"})"));
  ASSERT_TRUE(loaded.ok()) << loaded.error().field << ": " << loaded.error().detail;
  const auto record = *results::load_sample_record(*notebook.connection, SampleId{1});
  EXPECT_EQ(record.pan_tests.at(0).bead.method, "density");
  EXPECT_GT(record.pan_tests.at(0).bead.fineness->value, 700);
  EXPECT_LT(record.pan_tests.at(0).bead.fineness->value, 800);

  MemoryNotebook other;
  const auto both = load_records(*other.journal, with_bead(R"("fineness_method":"touchstone","fineness":"750",
    "density":{"in_air":"40 mg","in_water":"37.5 mg","balance":"b"})"));
  ASSERT_FALSE(both.ok());
  EXPECT_EQ(both.error().code, ErrorCode::conflict);
}

TEST(RecordsOfTheWeighRoom, MovesOnTraysCupsAndBeadsMeltedTogether) {
  MemoryNotebook notebook;
  const auto loaded = load_records(*notebook.journal, R"({"format":"records","version":1,"people":[{"initials":"HM"}],
    "balances":[{"name":"b","step":"0.001 mg"}],"clients":[{"name":"C"}],
    "furnace_runs":[{"name":"R","kind":"cupellation"}],"trays":[{"name":"cupels","kind":"cupel","run":"R"}],
    "tray_moves":[{"tray":"cupels","from":1,"to":2,"why":"crosswise"}],
    "consignments":[{"client":"C","samples":[{"mark":"A","mass_received":"4 kg","portions":[
      {"purpose":"fire","mass":"30 g","charge":{"key":"first","on_trays":[{"tray":"cupels","position":1}],"slag_metal":"0.4 mg",
        "slag_gold":"0.1 mg","bead":{"fineness_method":"parted","gold":[{"mass":"2 mg"}],
        "weighings":[{"gross":"493.301 mg","tare":"490.301 mg","balance":"b","tray":"cupels","position":1}]}}},
      {"purpose":"fire","mass":"30 g","charge":{"on_trays":[{"tray":"cupels","position":2}],
        "bead":{"weighings":[{"mass":"1 mg"}],"melted_into":"first"}}}]}]}]})");
  ASSERT_TRUE(loaded.ok()) << loaded.error().field << ": " << loaded.error().detail;
  store::Connection& connection = *notebook.connection;
  const auto tray = *trays::tray(connection, *trays::tray_by_name(connection, "cupels"));
  EXPECT_TRUE(tray.run);
  EXPECT_EQ(tray.at(1)->first_position(), 2);
  const auto record = *results::load_sample_record(connection, SampleId{1});
  EXPECT_EQ(record.charges[0].bead.weighings.at(0).mass.typed, "3.000 mg");
  EXPECT_EQ(record.charges[0].charge.slag_gold->typed, "0.1 mg");
  constexpr store::Sql reasons_elsewhere{"", "SELECT count(*) FROM history WHERE why IS NOT NULL AND entity <> 81"};
  EXPECT_EQ(connection.integer(reasons_elsewhere).value(), 0) << "the reason of the move is of the move alone";
  ASSERT_TRUE(record.charges[1].bead.parted());
  EXPECT_DOUBLE_EQ(record.charges[1].bead.parted()->gold / record.charges[1].bead.parted()->bead, 0.5) << "2 of 3 and 1 mg";
  const auto result = results::compute(record);
  EXPECT_NEAR(result.fire.tests[1].grade->gold->g_t(), 0.5 / 30 * 1000, 1e-9);
  EXPECT_NEAR(result.fire.tests[0].grade->gold->g_t(), (1.5 + 0.1) / 30 * 1000, 1e-9);
}

TEST(RecordsOfTheWeighRoom, TraysCheckWeightsAndTheLineOfABalance) {
  MemoryNotebook notebook;
  const auto loaded = load_records(*notebook.journal, R"({"format":"records","version":1,"people":[{"initials":"HM"}],
    "balances":[{"name":"b","step":"0.001 mg"}],
    "check_weights":[{"name":"20 mg","nominal":"20 mg","allowed":"0.005 mg","checks":[
      {"balance":"b","mass":"20.001 mg","weighed_at":"2026-05-04T08:00+02:00","weighed_by":"HM","raw":"20.001 mg"}]}],
    "trays":[{"name":"beads","columns":6,"controls":[{"position":2,"control":"blank"}]}],
    "clients":[{"name":"C"}],"consignments":[{"client":"C","samples":[{"mark":"A","portions":[
      {"purpose":"fire","mass":"30 g","charge":{"on_trays":[{"tray":"beads","position":1}],
        "bead":{"weighings":[{"mass":"0.9 mg","balance":"b","raw":"N  0.9 mg"}]}}},
      {"purpose":"pan","mass":"1 kg","pan_test":{"on_trays":[{"tray":"beads","position":6}]}}]}]}]})");
  ASSERT_TRUE(loaded.ok()) << loaded.error().detail;
  store::Connection& connection = *notebook.connection;
  const auto tray = *trays::tray(connection, *trays::tray_by_name(connection, "beads"));
  ASSERT_EQ(tray.places.size(), 3u);
  EXPECT_TRUE(tray.places[0].thing.charge);
  EXPECT_EQ(tray.places[1].thing.control, "blank");
  EXPECT_TRUE(tray.places[2].thing.bead);
  EXPECT_EQ(weighing::bead(connection, tray.places[0].bead)->weighings.at(0).raw, "N  0.9 mg");
  const auto checks = *weighing::check_weighings(connection, BalanceId{1}, 10);
  ASSERT_EQ(checks.size(), 1u);
  EXPECT_EQ(checks[0].raw, "20.001 mg");
  EXPECT_FALSE(checks[0].failed());
}

}  // namespace
}  // namespace prillbook::exchange
