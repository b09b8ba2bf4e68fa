// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/batch/calc_call.h"

namespace prillbook::batch {
namespace {

// Two sides with what is given of each put in.
std::string sides(const std::string& pan, const std::string& fire, const std::string& more = "") {
  return R"({"pan": {"portion_g": 1000, "bead_mg": 22, "fineness_permil": 750)" + pan +
         R"(}, "fire": {"portion_g": 100, "bead_mg": 9, "fineness_permil": 500)" + fire + "}" + more + "}";
}

TEST(CompareVerb, WithoutUncertaintyTheFiguresAndNoVerdict) {
  const Json out = answer("compare", sides("", ""));
  EXPECT_NEAR(out["recovery_pct"].get<double>(), 100 * 16.5 / 45, 1e-9);
  EXPECT_NEAR(out["gap_g_t"].get<double>(), 28.5, 1e-9);
  EXPECT_NEAR(out["silver_recovery_pct"].get<double>(), 100 * 5.5 / 45, 1e-9);
  EXPECT_EQ(out["verdict"], "not_determined");
  for (const char* key :
       {"recovery_pct_lo", "recovery_pct_hi", "gap_g_t_lo", "gap_g_t_hi", "verdict_basis", "recovery_status", "warnings"})
    EXPECT_FALSE(out.contains(key)) << key;
}

TEST(CompareVerb, VerdictAndItsBasis) {
  const std::string step = R"(, "balance_step_mg": 0.1)";
  const Json weighing = answer("compare", sides(step, step));
  EXPECT_EQ(weighing["verdict"], "gold_left_behind");
  EXPECT_EQ(weighing["verdict_basis"], "weighing");
  EXPECT_LT(weighing["recovery_pct_hi"].get<double>(), 100);
  EXPECT_GT(weighing["gap_g_t_lo"].get<double>(), 0);
  EXPECT_EQ(weighing["silver_verdict"], "gold_left_behind");

  const std::string coarse = step + R"(, "grain_um": 1000)";
  const Json sampled = answer("compare", sides(coarse, coarse));
  EXPECT_EQ(sampled["verdict"], "no_gap_shown");
  EXPECT_EQ(sampled["verdict_basis"], "weighing_and_sampling");
  EXPECT_EQ(sampled["recovery_status"], "unbounded");
  EXPECT_FALSE(sampled.contains("recovery_pct_hi"));
  EXPECT_EQ(answer("compare", sides(step, coarse))["verdict_basis"], "weighing");
}

TEST(CompareVerb, SilverOnlyWhereBothHaveAFigure) {
  const Json out = answer("compare", R"({"pan": {"portion_g": 1000, "bead_mg": 0, "balance_step_mg": 0.1},
      "fire": {"portion_g": 100, "bead_mg": 9, "fineness_permil": 500, "balance_step_mg": 0.1}})");
  EXPECT_EQ(out["pan_gold_g_t"], 0.0);
  EXPECT_FALSE(out.contains("silver_verdict") || out.contains("pan_silver_g_t"));
  const Json blank = answer("compare", sides(R"(, "blank_mg": 6)", ""));
  EXPECT_EQ(blank["silver_verdict"], "not_determined");
  EXPECT_FALSE(blank.contains("pan_silver_g_t"));
}

TEST(CompareVerb, NothingInTheFire) {
  const Json out = answer(
      "compare", R"({"pan": {"portion_g": 1000, "bead_mg": 22, "gold_mg": 16}, "fire": {"portion_g": 100, "bead_mg": 0}})");
  EXPECT_FALSE(out.contains("recovery_pct"));
  EXPECT_EQ(out["recovery_status"], "unbounded");
  EXPECT_EQ(out["gap_g_t"], -16.0);
  // A fire so poor that the quotient leaves the range of numbers.
  EXPECT_EQ(refusal("compare", R"({"pan": {"portion_g": 10, "bead_mg": 5, "gold_mg": 5},
      "fire": {"portion_g": 1e308, "bead_mg": 1, "gold_mg": 1}})"),
            "not_finite fire.portion_g");
}

TEST(CompareVerb, TailAndRemainder) {
  const std::string tail = R"(, "tail": {"portion_g": 50, "bead_mg": 1, "gold_mg": 0.5, "tail_mass_g": 940})";
  const std::string remainder = R"(, "remainder": {"portion_g": 10, "bead_mg": 5, "gold_mg": 4, "remainder_mass_g": 40})";
  const Json out = answer("compare", sides("", "", tail + remainder + R"(, "p80_um": 75)"));
  const double head = 16.5 + 400 * 0.04 + 10 * 0.94;
  EXPECT_NEAR(out["calculated_head_g_t"].get<double>(), head, 1e-9);
  EXPECT_NEAR(out["recovery_of_head_pct"].get<double>(), 100 * 16.5 / head, 1e-9);
  EXPECT_NEAR(out["gravity_recovery_pct"].get<double>(), 100 * 32.5 / head, 1e-9);
  EXPECT_NEAR(out["closure_pct"].get<double>(), 100 * head / 45, 1e-9);
  EXPECT_NEAR(out["unaccounted_g"].get<double>(), 20, 1e-9);
  EXPECT_EQ(out["warnings"], Json::array());
  const Json tail_only = answer("compare", sides("", "", tail));
  EXPECT_EQ(tail_only["warnings"], Json::array({"remainder_missing"}));
  EXPECT_FALSE(tail_only.contains("gravity_recovery_pct"));
  EXPECT_EQ(refusal("compare", sides("", "", remainder)), "missing_key tail");
}

TEST(CompareVerb, RefusalsNameTheSide) {
  const std::pair<std::string, const char*> cases[] = {
      {R"({"fire": {"portion_g": 100, "bead_mg": 9, "fineness_permil": 500}})", "missing_key pan"},
      {R"({"pan": 3})", "wrong_type pan"},
      {R"({"pan": {"portion_g": 100, "bead_mg": 9}})", "missing_key pan.fineness_permil"},
      {sides(R"(, "x": 1)", ""), "unknown_key pan.x"},
      {sides("", R"(, "gold_mg": 1)"), "conflict fire.fineness_permil"},
      {sides("", R"(, "grain_um": 0)"), "out_of_range fire.grain_um"},
      {sides(R"(, "grain_um": 10, "u_sampling_pct": 5)", ""), "conflict pan.u_sampling_pct"},
      {sides("", "", R"(, "p80_um": -1)"), "out_of_range p80_um"},
      {sides("", "", R"(, "tail": {"portion_g": 50, "bead_mg": 1, "gold_mg": 0.5})"), "missing_key tail.tail_mass_g"},
      {sides("", "", R"(, "tail": {"portion_g": 50, "bead_mg": 1, "tail_mass_g": 900})"), "missing_key tail.fineness_permil"},
      {sides("", "", R"(, "tail": {"portion_g": 50, "bead_mg": 1, "gold_mg": 0.5, "tail_mass_g": 1100})"),
       "inconsistent tail.tail_mass_g"},
      {sides("", "", R"(, "note": "x")"), "unknown_key note"},
  };
  for (const auto& [input, expected] : cases) EXPECT_EQ(refusal("compare", input), expected) << input;
}

}  // namespace
}  // namespace prillbook::batch
