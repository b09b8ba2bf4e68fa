// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/results/lists.h"

#include "core/results/sample_result.h"
#include "core/results/statements.h"
#include "tests/support/records.h"

namespace prillbook::results {
namespace {

using testing_support::figure;
using testing_support::LabWithSample;

struct Lists : testing::Test, LabWithSample<> {
  gravity::StartedPanTest pan() { return *gravity::start_pan_test(book, {*cut("1 kg", "pan"), {}, person, {}}); }
  fire::StartedCharge fire() { return *fire::start_charge(book, {*cut("30 g", "fire"), {}, person, {}, {}, {}}); }
  void weigh(BeadId bead) { ASSERT_TRUE(weighing::weigh(book, {bead, "bead", figure("1 mg"), balance, {}, person}).ok()); }
};

TEST_F(Lists, ASampleIsTestedOnceABeadSpeaks) {
  const auto panned = pan();
  const auto charge = fire();
  EXPECT_TRUE(tested_samples(*connection, 10)->empty());
  weigh(panned.bead);
  auto tested = tested_samples(*connection, 10);
  ASSERT_EQ(tested->size(), 1u);
  EXPECT_EQ(tested->front().pan_beads, 1);
  EXPECT_EQ(tested->front().fire_beads, 0);
  EXPECT_TRUE(tested->front().fineness_missing);
  EXPECT_EQ(*count_comparable_samples(*connection), 0);
  ASSERT_TRUE(weighing::set_none_seen(book, charge.bead, true).ok());
  EXPECT_EQ(*count_comparable_samples(*connection), 1);
  ASSERT_TRUE(weighing::set_fineness(book, panned.bead, "touchstone", figure("750", Measure::fineness), {}).ok());
  EXPECT_FALSE(tested_samples(*connection, 10)->front().fineness_missing);
  ASSERT_TRUE(gravity::set_spoiled(book, panned.test, "spilled").ok());
  EXPECT_EQ(*count_comparable_samples(*connection), 0);
}

TEST_F(Lists, ClientsAreCountedWithTheirSamples) {
  sample = log_sample("Old dump", "2 kg");
  weigh(pan().bead);
  const auto clients = clients_with_samples(*connection, 10);
  ASSERT_EQ(clients->size(), 1u);
  EXPECT_EQ(clients->front().samples, 2);
  EXPECT_EQ(clients->front().tested, 1);
  const auto samples = samples_for_summary(*connection, client);
  ASSERT_EQ(samples->size(), 2u);
  EXPECT_FALSE((*samples)[0].tested);
  EXPECT_TRUE((*samples)[1].tested);
}

// Common practice, no source: 1 kg with a bead of 22 mg is 22 g/t of bead.
TEST_F(Lists, TheGradeOfABeadBeforeItIsWritten) {
  const auto panned = pan();
  const auto record = load_sample_record(*connection, sample);
  EXPECT_FALSE(grade_of_bead(*record, panned.bead)->has_value());
  const auto grade = grade_if(*record, panned.bead, weighing::of_bead, figure("22 mg"));
  ASSERT_TRUE(grade.ok() && *grade);
  EXPECT_NEAR((*grade)->bead.g_t(), 22, 1e-9);
  EXPECT_EQ(grade_of_bead(*record, BeadId{999}).error().code, ErrorCode::not_found);
}

std::string query_plan(store::Connection& connection, const store::Sql& question) {
  std::string steps;
  const auto read = connection.rows_derived(fmt::format("EXPLAIN QUERY PLAN {}", question.text), {}, [&](const store::Row& row) {
    steps += row.text(3) + "\n";
    return true;
  });
  return read.ok() ? steps : read.error().detail;
}

// Only the page is gone through: no index made for the occasion, and the newest sample of a consignment stands in an index.
TEST(Statements, ListsOfAPageReadThePage) {
  const auto connection = store::Connection::in_memory().value();
  const std::string tested = query_plan(*connection, sql::tested_samples);
  EXPECT_EQ(tested.find("AUTOMATIC"), std::string::npos) << tested;
  EXPECT_NE(tested.find("SEARCH s USING INTEGER PRIMARY KEY"), std::string::npos) << tested;
  const std::string clients = query_plan(*connection, sql::clients_with_samples);
  EXPECT_NE(clients.find("SEARCH s USING COVERING INDEX sample_consignment (consignment_id=? AND struck=?)"), std::string::npos)
      << clients;
  EXPECT_EQ(clients.find("AUTOMATIC"), std::string::npos) << clients;
}

TEST(Statements, AllCompile) {
  const auto connection = store::Connection::in_memory().value();
  for (const store::Sql* statement : sql::all) EXPECT_TRUE(connection->prepare_only(*statement).ok()) << statement->name;
}

}  // namespace
}  // namespace prillbook::results
