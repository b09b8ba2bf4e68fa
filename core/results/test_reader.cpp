// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/results/test_reader.h"

#include <iterator>

#include "core/controls/materials.h"

namespace prillbook::results {
namespace {

constexpr std::int64_t checks_to_read = 300;  // of one balance

}  // namespace

Result<TestReader> TestReader::open(store::Connection& connection) {
  TestReader reader(connection);
  SampleRecord& record = reader.record_;
  PRILLBOOK_ASSIGN(record.settings, lab::settings(connection));
  PRILLBOOK_ASSIGN(record.balances, lab::balances(connection));
  PRILLBOOK_ASSIGN(record.lots, fire::lots(connection));
  for (const lab::Balance& balance : record.balances) {
    PRILLBOOK_ASSIGN(auto checks, weighing::check_weighings(connection, balance.id, checks_to_read));
    std::move(checks.begin(), checks.end(), std::back_inserter(record.checks));
  }
  return reader;
}

// Portions and steps tell whether it was cut dry; of a stock, which is never dried, the portion alone is read.
Result<void> TestReader::take_sample_of(PortionId id) {
  PRILLBOOK_ASSIGN(portions::Portion portion, portions::portion(*connection_, id));
  const SampleId sample = portion.sample;
  PRILLBOOK_ASSIGN(record_.sample, custody::sample(*connection_, sample));
  record_.steps.clear();
  record_.portions = {std::move(portion)};
  record_.charges.clear();
  record_.pan_tests.clear();
  PRILLBOOK_ASSIGN(const auto stock, controls::material_of(*connection_, sample));
  if (stock) return {};
  PRILLBOOK_ASSIGN(record_.portions, portions::portions_of(*connection_, sample));
  PRILLBOOK_ASSIGN(record_.steps, milling::steps_of(*connection_, sample));
  return {};
}

void TestReader::fill(SingleTest& test, const std::optional<std::string>& spoiled, const std::optional<std::string>& excluded) {
  test.label = record_.portion_label(test.portion);
  test.sample = record_.sample.id;
  test.left_out = spoiled ? spoiled : excluded;
  if (spoiled) return;
  if (auto grade = grade_of_bead(record_, test.bead.id); grade.ok()) test.grade = *std::move(grade);
}

Result<SingleTest> TestReader::read(ChargeId id) {
  PRILLBOOK_ASSIGN(fire::Charge charge, fire::charge(*connection_, id));
  PRILLBOOK_TRY(take_sample_of(charge.portion));
  SingleTest test;
  PRILLBOOK_ASSIGN(test.bead, weighing::bead_of(*connection_, id));
  test.charge = id;
  test.portion = charge.portion;
  test.role = charge.role;
  test.duplicate_of = charge.duplicate_of.value;
  test.when = charge.fired_at;
  record_.charges = {{charge, test.bead}};
  fill(test, charge.spoiled, charge.excluded);
  return test;
}

Result<SingleTest> TestReader::read(PanTestId id) {
  PRILLBOOK_ASSIGN(gravity::PanTest held, gravity::pan_test(*connection_, id));
  PRILLBOOK_TRY(take_sample_of(held.portion));
  SingleTest test;
  PRILLBOOK_ASSIGN(test.bead, weighing::bead_of(*connection_, id));
  test.pan_test = id;
  test.portion = held.portion;
  test.role = held.role;
  test.duplicate_of = held.duplicate_of.value;
  test.when = held.panned_at;
  record_.pan_tests = {{held, test.bead, {}}};
  fill(test, held.spoiled, held.excluded);
  return test;
}

}  // namespace prillbook::results
