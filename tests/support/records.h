// SPDX-License-Identifier: GPL-3.0-or-later
// Records of a small invented lab, made through the domains' own commands.
#pragma once

#include "core/custody/custody.h"
#include "core/lab/lab.h"
#include "core/portions/portions.h"
#include "tests/support/notebook.h"

namespace prillbook::testing_support {

inline readings::Reading figure(const std::string& text, Measure measure = Measure::mass) {
  auto reading = readings::parse(text, {measure, readings::base_unit(measure), DecimalMark::point, true});
  EXPECT_TRUE(reading.ok()) << text;
  return std::move(reading).value();
}

// One client, one consignment, one sample of 4 kg.
template <class Notebook = MemoryNotebook>
struct LabWithSample : Notebook {
  history::Journal& book = *this->journal;
  PersonId person = lab::add_person(book, "HM", "Hanna Moss").value();
  ClientId client = lab::add_client(book, "Larch Adit Syndicate").value();
  BalanceId balance = lab::add_balance(book, "bead balance", figure("0.001 mg")).value();
  ConsignmentId consignment = custody::log_consignment(book, {client, {}, {}, {}, {}, {}, person}).value();
  SampleId sample = log_sample("Larch adit N", "4 kg");

  SampleId log_sample(const std::string& mark, const std::string& mass) {
    custody::NewSample fresh;
    fresh.consignment = consignment;
    fresh.mark = mark;
    if (!mass.empty()) fresh.mass_received = figure(mass);
    return custody::log_sample(book, fresh).value();
  }
  Result<PortionId> cut(const std::string& mass, const std::string& purpose, PortionId parent = {}) {
    return portions::cut(book, {sample, parent, purpose, figure(mass), {}, person, {}});
  }
};

}  // namespace prillbook::testing_support
