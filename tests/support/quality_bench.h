// SPDX-License-Identifier: GPL-3.0-or-later
// A lab that makes controls: stocks, charges in a load, beads that are all gold but for a trace.
#pragma once

#include "core/controls/materials.h"
#include "core/fire/charge_record.h"
#include "core/history/fields.h"
#include "core/weighing/bead.h"
#include "tests/support/records.h"

namespace prillbook::testing_support {

struct QualityBench : LabWithSample<> {
  ControlMaterialId add_material(const std::string& name, const std::string& kind, const std::string& mass = "2 kg") {
    return controls::add_material(book, {name, kind, mass.empty() ? readings::Figure() : readings::Figure(figure(mass))}).value();
  }
  void enter_grade(const history::Field& field, ControlMaterialId id, const std::string& typed) {
    if (typed.empty()) return;
    const readings::Figure value = figure(typed, Measure::grade);
    ASSERT_TRUE(readings::enter(book, field, id.value, readings::cell_of(value)).ok());
  }
  ControlMaterialId reference(const std::string& gold, const std::string& sd, const std::string& u = "",
                              const std::string& meaning = "") {
    namespace f = history::fields::control_material;
    const ControlMaterialId id = add_material("pulp 5", "reference");
    enter_grade(f::gold, id, gold);
    enter_grade(f::gold_sd, id, sd);
    enter_grade(f::gold_u, id, u);
    if (!meaning.empty())
      EXPECT_TRUE(readings::enter(book, f::u_meaning, id.value, readings::cell_of(std::optional(meaning))).ok());
    return id;
  }
  fire::StartedCharge in_run(PortionId portion, FurnaceRunId run) {
    const auto started = fire::start_charge(book, {portion, {}, person, {}, {}, {}}).value();
    if (run) EXPECT_TRUE(readings::enter(book, history::fields::charge::fusion_run, started.charge.value, run.value).ok());
    return started;
  }
  fire::StartedCharge of_stock(ControlMaterialId id, const std::string& mass, FurnaceRunId run = {}) {
    const readings::Figure weighed = mass.empty() ? readings::Figure() : readings::Figure(figure(mass));
    return in_run(controls::weigh_in(book, id, weighed, person).value(), run);
  }
  fire::StartedCharge charge(const std::string& mass, FurnaceRunId run = {}) { return in_run(cut(mass, "fire").value(), run); }
  void weigh(BeadId bead, const std::string& mass, const std::string& what = "bead") {
    const weighing::NewWeighing fresh{bead, what, figure(mass), balance, {}, person};
    const auto weighed = what == "gold" ? weighing::weigh_parted(book, fresh) : weighing::weigh(book, fresh);
    ASSERT_TRUE(weighed.ok()) << weighed.error().detail;
  }
  // Parted to this gold, from a bead that weighed as much.
  void gold_of(const fire::StartedCharge& started, const std::string& mass) {
    weigh(started.bead, mass);
    weigh(started.bead, mass, "gold");
  }
};

}  // namespace prillbook::testing_support
