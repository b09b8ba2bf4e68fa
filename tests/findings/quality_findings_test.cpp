// SPDX-License-Identifier: GPL-3.0-or-later
// What the notebook notices about controls, each with the case where it keeps quiet.
#include <gtest/gtest.h>

#include "core/findings/finding.h"
#include "core/fire/runs.h"
#include "tests/support/quality_bench.h"

namespace prillbook::findings {
namespace {

using testing_support::QualityBench;

struct QualityFindings : testing::Test, QualityBench {
  FurnaceRunId run = *fire::start_run(book, {"fusion 1", "fusion", person});
  fire::StartedCharge client = charge("30 g", run);

  QualityFindings() { gold_of(client, "0.150 mg"); }
  std::optional<Finding> seen(const std::string& rule) {
    const auto found = findings_of(*connection, sample);
    EXPECT_TRUE(found.ok());
    for (const OpenOrAnswered& one : *found)
      if (one.finding.rule == rule) {
        for (const std::string* said : {&one.finding.seen, &one.finding.why, &one.finding.to_do, &one.finding.source})
          EXPECT_FALSE(said->empty()) << rule;
        EXPECT_FALSE(one.finding.evidence.empty()) << rule;
        return one.finding;
      }
    return std::nullopt;
  }
  void decide(const std::string& decision, const std::string& reason) {
    ASSERT_TRUE(results::decide_run(book, run, decision, reason, person).ok());
  }
};

TEST_F(QualityFindings, BlankOutside) {
  const auto blank = of_stock(add_material("quartz", "blank_rock"), "50 g", run);
  weigh(blank.bead, "0.020 mg");
  EXPECT_FALSE(seen("blank_outside")) << "its gold is not known yet";
  weigh(blank.bead, "0.012 mg", "gold");
  ASSERT_TRUE(seen("blank_outside"));
  EXPECT_NE(seen("blank_outside")->seen.find("In fusion 1: quartz, rock blank 26-0002/1 gave 0.24"), std::string::npos)
      << seen("blank_outside")->seen;
  EXPECT_FALSE(seen("reference_outside"));
  decide("accepted", "the samples of this load hold twenty times as much");
  EXPECT_FALSE(seen("blank_outside")) << "somebody has decided";
}

TEST_F(QualityFindings, ReferenceOutsideAndRuleBroken) {
  const ControlMaterialId pulp = reference("5.00 g/t", "0.20 g/t");
  gold_of(of_stock(pulp, "30 g", run), "0.164 mg");
  EXPECT_FALSE(seen("reference_outside")) << "beyond 2 s is a warning";
  EXPECT_FALSE(seen("control_rule_broken"));
  gold_of(of_stock(pulp, "30 g", run), "0.164 mg");
  EXPECT_TRUE(seen("control_rule_broken")) << "two running";
  EXPECT_FALSE(seen("reference_outside"));
  gold_of(of_stock(pulp, "30 g", run), "0.190 mg");
  EXPECT_TRUE(seen("reference_outside"));
}

TEST_F(QualityFindings, DuplicateOutsideSpeaksToItsOwnSample) {
  const auto second = charge("30 g", run);
  ASSERT_TRUE(controls::set_duplicate(book, second.charge, client.charge, controls::Role::duplicate_pulp).ok());
  gold_of(second, "0.153 mg");
  EXPECT_FALSE(seen("duplicate_outside"));
  weigh(second.bead, "0.211 mg");
  weigh(second.bead, "0.211 mg", "gold");
  ASSERT_TRUE(seen("duplicate_outside"));
  EXPECT_EQ(seen("duplicate_outside")->evidence.size(), 2u);
  sample = log_sample("Larch adit S", "2 kg");
  gold_of(charge("30 g", run), "0.150 mg");
  EXPECT_FALSE(seen("duplicate_outside")) << "another sample of the load";
}

TEST_F(QualityFindings, AFieldDuplicateSpeaksToBoth) {
  const SampleId first = sample;
  sample = log_sample("Larch adit N, again", "2 kg");
  const auto second = charge("30 g");
  gold_of(second, "0.260 mg");
  ASSERT_TRUE(controls::set_duplicate(book, second.charge, client.charge, controls::Role::duplicate_field).ok());
  EXPECT_TRUE(seen("duplicate_outside"));
  sample = first;
  EXPECT_TRUE(seen("duplicate_outside"));
}

TEST_F(QualityFindings, RunHeldStops) {
  EXPECT_FALSE(seen("run_held"));
  decide("held", "the slag kept its lead");
  ASSERT_TRUE(seen("run_held"));
  EXPECT_EQ(seen("run_held")->severity, Severity::stop);
  decide("repeated", "the slag kept its lead");
  EXPECT_FALSE(seen("run_held")) << "its charges are left out";
}

TEST_F(QualityFindings, InsertionOverdueOnceTheLabHasBegun) {
  ASSERT_TRUE(lab::set_setting(book, "quality.blank_one_in", "3").ok());
  for (int i = 0; i < 5; ++i) charge("30 g");
  EXPECT_FALSE(seen("insertion_overdue")) << "no blank was ever made";
  of_stock(add_material("quartz", "blank_rock"), "50 g", run);
  sample = log_sample("Larch adit S", "2 kg");
  for (int i = 0; i < 3; ++i) charge("30 g");
  EXPECT_FALSE(seen("insertion_overdue"));
  charge("30 g");
  ASSERT_TRUE(seen("insertion_overdue"));
  EXPECT_EQ(seen("insertion_overdue")->severity, Severity::note);
  ASSERT_TRUE(lab::set_setting(book, "quality.blank_one_in", "0").ok());
  EXPECT_FALSE(seen("insertion_overdue")) << "the lab asks for none";
}

}  // namespace
}  // namespace prillbook::findings
