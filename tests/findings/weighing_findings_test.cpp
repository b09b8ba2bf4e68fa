// SPDX-License-Identifier: GPL-3.0-or-later
#include <gmock/gmock.h>

#include <algorithm>

#include "core/findings/finding.h"
#include "core/fire/charge_record.h"
#include "core/history/fields.h"
#include "core/results/sample_result.h"
#include "core/units/units.h"
#include "tests/support/records.h"

namespace prillbook::findings {
namespace {

using testing::Contains;
using testing::HasSubstr;
using testing::Not;
using testing_support::figure;
using testing_support::LabWithSample;

struct WeighingFindings : testing::Test, LabWithSample<> {
  CheckWeightId twenty = *weighing::add_check_weight(book, "20 mg", figure("20 mg"), figure("0.005 mg"));

  void check(const std::string& mass, const std::string& at) {
    ASSERT_TRUE(weighing::weigh_check(book, {balance, twenty, figure(mass), *parse_iso(at), person, {}}).ok());
  }
  WeighingId weigh(const std::string& mass, const std::string& at = "2026-05-04T11:00+02:00") {
    const BeadId bead = fire::start_charge(book, {*cut("30 g", "fire"), {}, person, {}, {}, {}})->bead;
    return *weighing::weigh(book, {bead, std::string(weighing::of_bead), figure(mass), balance, *parse_iso(at), person});
  }
  std::vector<Finding> found() {
    const auto record = *results::load_sample_record(*connection, sample);
    return look({record, results::compute(record)});
  }
  std::vector<std::string> rules_found() {
    std::vector<std::string> names;
    for (const Finding& finding : found()) names.push_back(finding.rule);
    return names;
  }
  std::string seen(const std::string& rule) {
    for (const Finding& finding : found())
      if (finding.rule == rule) return finding.seen;
    return "";
  }
};

TEST_F(WeighingFindings, AFailedCheckMarksLaterReadingsUntilOnePasses) {
  check("20.009 mg", "2026-05-04T08:00+02:00");
  weigh("22 mg", "2026-05-04T07:00+02:00");
  EXPECT_THAT(rules_found(), Not(Contains("check_weight_failed"))) << "weighed before it";
  weigh("23 mg", "2026-05-04T09:00+02:00");
  EXPECT_THAT(seen("check_weight_failed"), HasSubstr("23 mg"));
  EXPECT_THAT(seen("check_weight_failed"), Not(HasSubstr("22 mg")));
  check("20.001 mg", "2026-05-04T10:00+02:00");
  weigh("24 mg", "2026-05-04T11:00+02:00");
  EXPECT_THAT(seen("check_weight_failed"), Not(HasSubstr("24 mg")));
}

TEST_F(WeighingFindings, ABalanceThatIsCheckedAtAllIsCheckedThatDay) {
  weigh("22 mg");
  EXPECT_THAT(rules_found(), Not(Contains("balance_not_checked"))) << "a lab without checks is left alone";
  check("20.001 mg", "2026-05-03T08:00+02:00");
  EXPECT_THAT(seen("balance_not_checked"), HasSubstr("bead balance"));
  check("20.001 mg", "2026-05-04T08:00+02:00");
  EXPECT_THAT(rules_found(), Not(Contains("balance_not_checked")));
}

TEST_F(WeighingFindings, NearTheStep) {
  weigh("0.020 mg");
  EXPECT_THAT(rules_found(), Not(Contains("near_step"))) << "twenty steps";
  weigh("0.010 mg");
  EXPECT_THAT(seen("near_step"), HasSubstr("5.0 %")) << "half a step of ten";
}

TEST_F(WeighingFindings, NoMultipleOfTheStep) {
  weigh("22.001 mg");
  EXPECT_THAT(rules_found(), Not(Contains("off_step")));
  weigh("22.0005 mg");
  EXPECT_THAT(seen("off_step"), HasSubstr("22.0005 mg"));
}

TEST_F(WeighingFindings, AboveTheCapacityThatWasEnteredLater) {
  weigh("22 mg");
  EXPECT_THAT(rules_found(), Not(Contains("over_range")));
  ASSERT_TRUE(readings::enter(book, history::fields::balance::capacity, balance.value,
                              readings::cell_of(readings::Figure{figure("20 mg")}))
                  .ok());
  EXPECT_THAT(seen("over_range"), HasSubstr("20 mg"));
}

TEST_F(WeighingFindings, AWeighingLeftOutSaysNothing) {
  const WeighingId id = weigh("0.010 mg");
  ASSERT_TRUE(weighing::exclude(book, id, "slipped").ok());
  EXPECT_THAT(rules_found(), Not(Contains("near_step")));
}

// The balance's scatter by its checks goes into the uncertainty of a bead.
TEST_F(WeighingFindings, PooledRepeatabilityWidensTheInterval) {
  weigh("22 mg");
  const auto width = [&] {
    const auto record = *results::load_sample_record(*connection, sample);
    const auto grade = *results::grade_of_bead(record, record.charges.front().bead.id);
    return (grade->bead.hi->in(unit::gram_per_tonne)-grade->bead.lo->in(unit::gram_per_tonne)) / 2;
  };
  const double before = width();
  for (const char* mass : {"20.004", "19.996", "20.004", "19.996", "20.004", "19.996"})
    check(std::string(mass) + " mg", "2026-05-04T08:00+02:00");
  EXPECT_GT(width(), 5 * before);
}

}  // namespace
}  // namespace prillbook::findings
