// SPDX-License-Identifier: GPL-3.0-or-later
#include <cmath>

#include "tests/batch/calc_call.h"

namespace prillbook::batch {
namespace {

TEST(GradeVerb, ThreeUnitsForEachMetal) {
  const Json out = answer("grade", R"({"portion_g": 1000, "bead_mg": 22, "fineness_permil": 750})");
  EXPECT_NEAR(out["bead_g_t"].get<double>(), 22, 1e-12);
  EXPECT_NEAR(out["gold_g_t"].get<double>(), 16.5, 1e-12);
  EXPECT_NEAR(out["silver_g_t"].get<double>(), 5.5, 1e-12);
  EXPECT_NEAR(out["gold_ozt_st"].get<double>(), 16.5 * 7 / 240, 1e-12);
  EXPECT_NEAR(out["gold_ozt_lt"].get<double>(), 16.5 * 49 / 1500, 1e-12);
  EXPECT_EQ(out["silver_status"], "by_difference");
  EXPECT_EQ(out.size(), 10u) << "no key of uncertainty where none was given: " << out.dump();
}

TEST(GradeVerb, WithoutFinenessOnlyTheBead) {
  const Json out = answer("grade", R"({"portion_g": 30, "bead_mg": [1.5, 1.52], "balance_step_mg": 0.01})");
  EXPECT_FALSE(out.contains("gold_g_t") || out.contains("silver_g_t"));
  EXPECT_EQ(out["silver_status"], "not_determined");
  EXPECT_TRUE(out.contains("u_bead_g_t"));
}

TEST(GradeVerb, BudgetOfATouchstoneBead) {
  const Json out = answer("grade", R"({"portion_g": 30, "bead_mg": 1.5, "fineness_permil": 800,
      "fineness_method": "touchstone", "balance_step_mg": 0.01, "portion_step_g": 0.01})");
  EXPECT_NEAR(out["u_gold_g_t"].get<double>(), std::hypot(50 * 30e-3 / std::sqrt(3), 40 * 0.01 / 1.5 / std::sqrt(12)), 1e-3);
  EXPECT_EQ(out["budget"][0]["source"], "fineness");
  double sum = 0;
  for (const auto& line : out["budget"]) sum += line["share_pct"].get<double>();
  EXPECT_NEAR(sum, 100, 1e-9);
  EXPECT_GT(out["gold_g_t_lo"].get<double>(), 40 - 1.96 * out["u_gold_g_t"].get<double>());
}

TEST(GradeVerb, NoneSeen) {
  const Json out = answer("grade", R"({"portion_g": 30, "bead_mg": 0, "balance_step_mg": 0.01})");
  EXPECT_EQ(out["gold_g_t"], 0.0);
  EXPECT_GT(out["gold_g_t_hi"].get<double>(), 0);
  EXPECT_LE(out["gold_g_t_hi"].get<double>(), 0.005 / 30 * 1000);
  const Json bare = answer("grade", R"({"portion_g": 30, "bead_mg": 0})");
  EXPECT_EQ(bare["gold_g_t"], 0.0);
  EXPECT_FALSE(bare.contains("gold_g_t_hi"));
}

TEST(GradeVerb, BelowTheBlankThereIsALimitAndNoFigure) {
  const Json out =
      answer("grade", R"({"portion_g": 30, "bead_mg": 1, "fineness_permil": 900, "blank_mg": 0.2, "balance_step_mg": 0.01})");
  EXPECT_EQ(out["silver_status"], "not_above_blank");
  EXPECT_FALSE(out.contains("silver_g_t"));
  EXPECT_GT(out["silver_g_t_hi"].get<double>(), 0);
}

TEST(GradeVerb, Refusals) {
  const std::pair<const char*, const char*> cases[] = {
      {R"({"bead_mg": 1})", "missing_key portion_g"},
      {R"({"portion_g": 30})", "missing_key bead_mg"},
      {R"({"portion_g": 0, "bead_mg": 1})", "out_of_range portion_g"},
      {R"({"portion_g": -30, "bead_mg": 1})", "out_of_range portion_g"},
      {R"({"portion_g": "30", "bead_mg": 1})", "wrong_type portion_g"},
      {R"({"portion_g": 30, "bead_mg": null})", "wrong_type bead_mg"},
      {R"({"portion_g": 30, "bead_mg": []})", "too_small bead_mg"},
      {R"({"portion_g": 30, "bead_mg": [1, -1]})", "out_of_range bead_mg[1]"},
      {R"({"portion_g": 30, "bead_mg": [1, "x"]})", "wrong_type bead_mg[1]"},
      {R"({"portion_g": 30, "bead_mg": 1, "colour": 1})", "unknown_key colour"},
      {R"({"portion_g": 1, "bead_mg": 1500})", "inconsistent bead_mg"},
      {R"({"portion_g": 30, "bead_mg": 1, "fineness_permil": 1001})", "out_of_range fineness_permil"},
      {R"({"portion_g": 30, "bead_mg": 1, "fineness_permil": 500, "gold_mg": 0.5})", "conflict fineness_permil"},
      {R"({"portion_g": 30, "bead_mg": 1, "gold_mg": 1.5})", "inconsistent gold_mg"},
      {R"({"portion_g": 30, "bead_mg": 1, "gold_mg": 0.5, "u_fineness_permil": 2})", "conflict u_fineness_permil"},
      {R"({"portion_g": 30, "bead_mg": 1, "gold_mg": 0.5, "fineness_method": "colour"})", "conflict fineness_method"},
      {R"({"portion_g": 30, "bead_mg": 1, "gold_mg": 0.5, "fineness_method": "parted"})", "done"},
      {R"({"portion_g": 30, "bead_mg": 1, "u_fineness_permil": 2})", "missing_key fineness_permil"},
      {R"({"portion_g": 30, "bead_mg": 1, "fineness_permil": 500, "fineness_method": "taste"})", "out_of_range fineness_method"},
      {R"({"portion_g": 30, "bead_mg": 1, "fineness_permil": 500, "fineness_method": "stated"})",
       "missing_key u_fineness_permil"},
      {R"({"portion_g": 30, "bead_mg": 1, "fineness_permil": 500, "fineness_method": "density"})",
       "missing_key u_fineness_permil"},
      {R"({"portion_g": 30, "bead_mg": 1, "gold_loss_pct": 0.2})", "missing_key fineness_permil"},
      {R"({"portion_g": 30, "bead_mg": 1, "gold_mg": 0.5, "gold_loss_pct": 100})", "out_of_range gold_loss_pct"},
      {R"({"portion_g": 30, "bead_mg": 1, "gold_mg": 0.5, "gold_loss_pct": 0.2, "cupel_mg": 0.1})", "conflict cupel_mg"},
      {R"({"portion_g": 30, "bead_mg": 1, "gold_mg": 0.5, "gold_loss_pct": 0.2, "slag_mg": 0.1})", "done"},
      {R"({"portion_g": 30, "bead_mg": 1, "slag_gold_mg": 0.1})", "missing_key slag_mg"},
      {R"({"portion_g": 30, "bead_mg": 1, "slag_mg": 0.05, "slag_gold_mg": 0.1})", "inconsistent slag_gold_mg"},
      {R"({"portion_g": 30, "bead_mg": 1, "moisture_pct": 100})", "out_of_range moisture_pct"},
      {R"({"portion_g": 30, "bead_mg": 1, "balance_step_mg": 0})", "out_of_range balance_step_mg"},
      {R"({"portion_g": 30, "bead_mg": 1, "tared": 1})", "wrong_type tared"},
      {R"({"portion_g": 30, "bead_mg": 1, "collector_mg": 0.5, "fineness_permil": 200, "fineness_method": "colour"})",
       "conflict fineness_method"},
      {R"({"portion_g": 30, "bead_mg": 0, "collector_mg": 5})", "inconsistent bead_mg"},
      {R"({"portion_g": 1e300, "bead_mg": [1e200, 3e200]})", "not_finite bead_mg"},
  };
  for (const auto& [input, expected] : cases) EXPECT_EQ(refusal("grade", input), expected) << input;
}

}  // namespace
}  // namespace prillbook::batch
