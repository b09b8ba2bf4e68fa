// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/custody/custody.h"

#include <gtest/gtest.h>

#include "core/custody/statements.h"
#include "core/lab/settings.h"
#include "tests/support/records.h"

namespace prillbook::custody {
namespace {

using testing_support::LabWithSample;

TEST(Custody, NumbersAreGivenInOrderAndNeverAgain) {
  LabWithSample<> lab;
  EXPECT_EQ(sample(*lab.connection, lab.sample)->number, "26-0001");
  const SampleId second = lab.log_sample("B", "1 kg");
  EXPECT_EQ(sample(*lab.connection, second)->number, "26-0002");
  ASSERT_TRUE(lab.book.undo().ok());
  const SampleId third = lab.log_sample("C", "1 kg");
  EXPECT_EQ(sample(*lab.connection, third)->number, "26-0003") << "the number of the sample that was taken back stays used";
}

TEST(Custody, ReceivedFiguresAreKeptAsTyped) {
  LabWithSample<> lab;
  NewSample torn;
  torn.consignment = lab.consignment;
  torn.mark = "Larch adit S";
  torn.condition = "torn";
  torn.mass_declared = testing_support::figure("4,55 kg");
  torn.mass_received = testing_support::figure("4.10 kg");
  const auto id = log_sample(lab.book, torn);
  ASSERT_TRUE(id.ok()) << id.error().detail;
  const auto stored = sample(*lab.connection, *id);
  EXPECT_EQ(stored->mass_declared->typed, "4,55 kg");
  EXPECT_DOUBLE_EQ(stored->mass_declared->value, 4550);
  EXPECT_EQ(stored->condition, "torn");
}

TEST(Custody, RefusesAConditionThatIsNoWordOfTheTrade) {
  LabWithSample<> lab;
  NewSample fresh;
  fresh.consignment = lab.consignment;
  fresh.mark = "A";
  fresh.condition = "soggy";
  EXPECT_EQ(log_sample(lab.book, fresh).error().code, ErrorCode::out_of_range);
  fresh.condition.reset();
  fresh.mark = "   ";
  EXPECT_EQ(log_sample(lab.book, fresh).error().code, ErrorCode::missing_key);
  fresh.mark = "A";
  fresh.consignment = ConsignmentId{77};
  EXPECT_EQ(log_sample(lab.book, fresh).error().code, ErrorCode::not_found);
}

TEST(Custody, UnknownClientIsRefused) {
  LabWithSample<> lab;
  EXPECT_EQ(log_consignment(lab.book, {ClientId{99}, {}, {}, {}, {}, {}, {}}).error().code, ErrorCode::inconsistent);
}

TEST(Custody, ASampleWaitsUntilSomethingIsCutFromIt) {
  LabWithSample<> lab;
  EXPECT_EQ(*count_uncut_samples(*lab.connection), 1);
  ASSERT_TRUE(lab.cut("1 kg", "pan").ok());
  EXPECT_EQ(*count_uncut_samples(*lab.connection), 0);
}

TEST(Statements, AllCompile) {
  const auto connection = store::Connection::in_memory().value();
  for (const store::Sql* statement : sql::all) EXPECT_TRUE(connection->prepare_only(*statement).ok()) << statement->name;
}

}  // namespace
}  // namespace prillbook::custody
