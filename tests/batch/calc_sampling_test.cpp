// SPDX-License-Identifier: GPL-3.0-or-later
// The verbs sampling, grains, mix_carryover and two_product.
#include <gmock/gmock.h>

#include "tests/batch/support.h"

namespace prillbook::batch {
namespace {

using testing::ElementsAre;
using testing::HasSubstr;

TEST(CalcSampling, KeysOfGysForm) {
  const Json plain = done("sampling", R"({"top_size_um": 2000, "liberation_um": 100, "grade_g_t": 5, "mass_g": 1000})");
  EXPECT_THAT(keys(plain), ElementsAre("relative_sd_pct", "form"));
  EXPECT_THAT(plain["form"].get<std::string>(), HasSubstr("Gy"));
  EXPECT_THAT(plain["form"].get<std::string>(), HasSubstr("1.5"));
  const Json target =
      done("sampling", R"({"top_size_um": 2000, "liberation_um": 100, "grade_g_t": 5, "mass_g": 1000, "target_pct": 10,
                                           "lot_g": 50000, "shape": 0.2, "range_factor": 0.5, "exponent": 1, "gold_density": 17})");
  EXPECT_THAT(keys(target), ElementsAre("relative_sd_pct", "form", "mass_for_target_g"));
}

TEST(CalcSampling, KeysOfAnIngamellsSet) {
  EXPECT_THAT(keys(done("sampling", R"({"masses_g": [50, 50, 50], "values": [4, 5, 6]})")),
              ElementsAre("ingamells_ks_g", "mean", "sd"));
  const Json target = done("sampling", R"({"masses_g": [50, 50, 50], "values": [4, 5, 6], "target_pct": 10})");
  EXPECT_DOUBLE_EQ(target["ingamells_ks_g"].get<double>(), 20'000) << "50 g × (20 %)²";
  EXPECT_DOUBLE_EQ(target["mass_for_target_g"].get<double>(), 200);
}

TEST(CalcSampling, Refusals) {
  EXPECT_EQ(refusal("sampling", R"({"liberation_um": 100, "grade_g_t": 5, "mass_g": 1000})"), "missing_key top_size_um");
  EXPECT_EQ(refusal("sampling", R"({"top_size_um": 9, "liberation_um": 9, "grade_g_t": 0, "mass_g": 1})"),
            "out_of_range grade_g_t");
  EXPECT_EQ(refusal("sampling", R"({"top_size_um": 9, "liberation_um": 9, "grade_g_t": 1, "mass_g": 2, "lot_g": 1})"),
            "inconsistent lot_g");
  EXPECT_EQ(refusal("sampling", R"({"top_size_um": 9, "liberation_um": 9, "grade_g_t": 1, "mass_g": 2, "values": [1, 2]})"),
            "conflict top_size_um");
  EXPECT_EQ(refusal("sampling", R"({"values": [1, 2]})"), "missing_key masses_g");
  EXPECT_EQ(refusal("sampling", R"({"masses_g": [1, 2], "values": [1]})"), "too_small values");
  EXPECT_EQ(refusal("sampling", R"({"masses_g": [1, 2, 3], "values": [1, 2]})"), "inconsistent values");
  EXPECT_EQ(refusal("sampling", R"({"masses_g": [1, -2], "values": [1, 2]})"), "out_of_range masses_g[1]");
  EXPECT_EQ(refusal("sampling", R"({"top_size_um": 1e-320, "liberation_um": 1e300, "grade_g_t": 1e-300, "mass_g": 1e-300})"),
            "not_finite mass_g");
}

TEST(CalcGrains, KeysOfTheContract) {
  const Json output = done("grains", R"({"grade_g_t": 5, "mass_g": 30, "grain_um": 106})");
  EXPECT_THAT(keys(output), ElementsAre("expected_grains", "relative_sd_pct", "none_probability", "grains_lo", "grains_hi"));
  // Range by summing the Poisson terms by hand for a mean of 12.463: P(<=5) 0.0165, P(<=6) 0.0364, P(<=19) 0.9709, P(<=20)
  // 0.9841.
  EXPECT_EQ(output["grains_lo"], 6);
  EXPECT_EQ(output["grains_hi"], 20);
  const Json disc = done("grains", R"({"grade_g_t": 5, "mass_g": 30, "grain_um": 106, "flatness": 0.1, "gold_density": 19.3})");
  EXPECT_GT(disc["expected_grains"], output["expected_grains"]);
}

TEST(CalcGrains, Refusals) {
  EXPECT_EQ(refusal("grains", R"({"grade_g_t": 5, "mass_g": 30})"), "missing_key grain_um");
  EXPECT_EQ(refusal("grains", R"({"grade_g_t": 0, "mass_g": 30, "grain_um": 106})"), "out_of_range grade_g_t");
  EXPECT_EQ(refusal("grains", R"({"grade_g_t": 1, "mass_g": 30, "grain_um": 106, "flatness": 1.1})"), "out_of_range flatness");
  EXPECT_EQ(refusal("grains", R"({"grade_g_t": 1, "mass_g": 30, "grain_um": 1e-200})"), "not_finite grain_um");
}

TEST(CalcMixCarryover, KeysOfTheContract) {
  const Json output =
      done("mix_carryover", R"({"sample_g": 990, "previous_g_t": 100, "own_g_t": 1, "holdup_g": 10, "flushes": [90, 90]})");
  EXPECT_THAT(keys(output), ElementsAre("apparent_g_t", "carryover_g_t", "carryover_pct"));
  EXPECT_NEAR(output["apparent_g_t"].get<double>(), (990 + 10) / 1000.0, 1e-12) << "100 g/t twice flushed is 1 g/t";
  EXPECT_NEAR(output["carryover_g_t"].get<double>(), 0, 1e-12);
  EXPECT_NEAR(output["carryover_pct"].get<double>(), 1, 1e-12);
  EXPECT_FALSE(
      done("mix_carryover", R"({"sample_g": 1, "previous_g_t": 0, "own_g_t": 0, "holdup_g": 1})").contains("carryover_pct"));
}

TEST(CalcMixCarryover, Refusals) {
  EXPECT_EQ(refusal("mix_carryover", R"({"sample_g": 1, "previous_g_t": 1, "own_g_t": 1})"), "missing_key holdup_g");
  EXPECT_EQ(refusal("mix_carryover", R"({"sample_g": 1, "previous_g_t": 1, "own_g_t": 1, "holdup_g": -1})"),
            "out_of_range holdup_g");
  EXPECT_EQ(refusal("mix_carryover", R"({"sample_g": 1, "previous_g_t": 1, "own_g_t": 1, "holdup_g": 1, "flushes": [5, 0]})"),
            "out_of_range flushes[1]");
  EXPECT_EQ(refusal("mix_carryover", R"({"sample_g": 1, "previous_g_t": 1, "own_g_t": 1, "holdup_g": 1, "flushes": 5})"),
            "wrong_type flushes");
}

TEST(CalcTwoProduct, KeysAndRefusals) {
  const Json output = done("two_product", R"({"feed_g_t": 10, "concentrate_g_t": 30, "tail_g_t": 1})");
  EXPECT_THAT(keys(output), ElementsAre("recovery_pct", "mass_yield_pct", "enrichment"));
  EXPECT_EQ(refusal("two_product", R"({"feed_g_t": 10, "concentrate_g_t": 30})"), "missing_key tail_g_t");
  EXPECT_EQ(refusal("two_product", R"({"feed_g_t": 10, "concentrate_g_t": 9, "tail_g_t": 1})"), "inconsistent feed_g_t");
  EXPECT_EQ(refusal("two_product", R"({"feed_g_t": 10, "concentrate_g_t": 9, "tail_g_t": 9})"), "inconsistent concentrate_g_t");
  EXPECT_EQ(refusal("two_product", R"({"feed_g_t": 0, "concentrate_g_t": 9, "tail_g_t": 0})"), "out_of_range feed_g_t");
}

}  // namespace
}  // namespace prillbook::batch
