// SPDX-License-Identifier: GPL-3.0-or-later
// A lab with a stack and portions shaken through it.
#pragma once

#include "core/history/fields.h"
#include "core/results/sample_result.h"
#include "tests/support/records.h"

namespace prillbook::testing_support {

struct SieveBench : LabWithSample<> {
  SieveStackId stack(const std::string& name, const std::string& words) {
    const auto made = sieves::add_stack(book, name, words);
    EXPECT_TRUE(made.ok()) << (made.ok() ? "" : made.error().detail);
    return made.value_or({});
  }
  // Masses coarse to fine, the pan last; an empty text is not weighed.
  SieveAnalysisId sieved(PortionId portion, SieveStackId with, const std::vector<std::string>& masses) {
    const auto id = sieves::start_analysis(book, {portion, with, {}, person, {}, {}, {}});
    EXPECT_TRUE(id.ok());
    const auto held = sieves::analysis(*connection, *id);
    EXPECT_EQ(held->cuts.size(), masses.size());
    for (std::size_t i = 0; i < masses.size(); ++i) {
      if (masses[i].empty()) continue;
      EXPECT_TRUE(sieves::set_retained(book, held->cuts[i].id, figure(masses[i])).ok()) << masses[i];
    }
    return *id;
  }
  // A pan test at a grind, with a bead of this mass at 1000 ‰ stated without doubt worth naming.
  PanTestId panned(const std::string& portion, const std::string& grind, const std::string& bead,
                   const std::string& fineness_u = "1", const std::string& largest_colour = "") {
    const auto started = gravity::start_pan_test(book, {*cut(portion, "pan"), {}, person, figure(grind, Measure::opening)});
    weigh(started->bead, bead, fineness_u);
    if (largest_colour.empty()) return started->test;
    EXPECT_TRUE(readings::enter(book, history::fields::pan_test::largest_colour, started->test.value,
                                readings::cell_of(readings::Figure{figure(largest_colour, Measure::opening)}))
                    .ok());
    return started->test;
  }
  BeadId fired(PortionId portion, const std::string& bead, const std::string& fineness_u = "1") {
    const auto charge = fire::start_charge(book, {portion, {}, person, {}, {}, {}});
    EXPECT_TRUE(charge.ok());
    weigh(charge->bead, bead, fineness_u);
    return charge->bead;
  }
  void weigh(BeadId bead, const std::string& mass, const std::string& fineness_u) {
    EXPECT_TRUE(weighing::weigh(book, {bead, "bead", figure(mass), balance, {}, person}).ok());
    EXPECT_TRUE(
        weighing::set_fineness(book, bead, "stated", figure("900", Measure::fineness), figure(fineness_u, Measure::fineness))
            .ok());
  }
  void another(const std::string& mark) { sample = log_sample(mark, "4 kg"); }
  results::SampleRecord record() { return results::load_sample_record(*connection, sample).value(); }
  results::SampleResult result() { return results::compute(record()); }
};

}  // namespace prillbook::testing_support
