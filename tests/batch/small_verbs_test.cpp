// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/batch/calc_call.h"

namespace prillbook::batch {
namespace {

TEST(MetallicsVerb, KeysAndUncertainty) {
  const Json one = answer("metallics", R"({"coarse_mass_g": 18.4, "coarse_metal_mg": 6.213, "fine_mass_g": 981.6,
      "fine": [{"portion_g": 30, "metal_mg": 0.1272}]})");
  EXPECT_NEAR(one["grade_g_t"].get<double>(), 10.375, 1e-3);
  EXPECT_NEAR(one["grade_ozt_st"].get<double>(), 10.375 * 7 / 240, 1e-4);
  EXPECT_NEAR(one["coarse_share_pct"].get<double>(), 59.88, 0.01);
  EXPECT_FALSE(one.contains("u_grade_g_t"));
  EXPECT_TRUE(answer("metallics", R"({"coarse_mass_g": 18.4, "coarse_metal_mg": 6.213, "fine_mass_g": 981.6,
      "fine": [{"portion_g": 30, "metal_mg": 0.12}, {"portion_g": 30, "metal_mg": 0.13}]})")
                  .contains("u_grade_g_t"));
}

TEST(MetallicsVerb, Refusals) {
  const auto with = [](std::string_view fine) {
    return refusal("metallics",
                   R"({"coarse_mass_g": 10, "coarse_metal_mg": 1, "fine_mass_g": 100, "fine": )" + std::string(fine) + "}");
  };
  EXPECT_EQ(with("[]"), "too_small fine");
  EXPECT_EQ(with("{}"), "wrong_type fine");
  EXPECT_EQ(with(R"([{"portion_g": 30}])"), "missing_key fine[0].metal_mg");
  EXPECT_EQ(with(R"([{"portion_g": 30, "metal_mg": 1}, {"portion_g": 0, "metal_mg": 1}])"), "out_of_range fine[1].portion_g");
  EXPECT_EQ(with(R"([{"portion_g": 1, "metal_mg": 1001}])"), "inconsistent fine[0].metal_mg");
  EXPECT_EQ(with(R"([{"portion_g": 60, "metal_mg": 1}, {"portion_g": 60, "metal_mg": 1}])"), "inconsistent fine[1].portion_g");
  EXPECT_EQ(with(R"([{"portion_g": 30, "metal_mg": 1, "x": 1}])"), "unknown_key fine[0].x");
}

TEST(MoistureVerb, BothBases) {
  const Json out = answer("moisture", R"({"wet_g": 100, "dry_g": 90})");
  EXPECT_NEAR(out["moisture_wet_basis_pct"].get<double>(), 10, 1e-12);
  EXPECT_NEAR(out["moisture_dry_basis_pct"].get<double>(), 100.0 / 9, 1e-12);
  EXPECT_EQ(refusal("moisture", R"({"wet_g": 90, "dry_g": 100})"), "inconsistent dry_g");
  EXPECT_EQ(refusal("moisture", R"({"wet_g": 90, "dry_g": 0})"), "out_of_range dry_g");
  EXPECT_EQ(refusal("moisture", R"({"wet_g": 1e300, "dry_g": 1e-300})"), "not_finite dry_g");
}

TEST(InquartVerb, SilverToAdd) {
  EXPECT_NEAR(answer("inquart", R"({"gold_mg": 8, "silver_mg": 2, "ratio": 2.5})")["silver_to_add_mg"].get<double>(), 18, 1e-9);
  EXPECT_EQ(answer("inquart", R"({"gold_mg": 1, "silver_mg": 9, "ratio": 2.5})")["silver_to_add_mg"], 0.0);
  EXPECT_EQ(refusal("inquart", R"({"gold_mg": 1, "silver_mg": 9})"), "missing_key ratio");
  EXPECT_EQ(refusal("inquart", R"({"gold_mg": 1e300, "silver_mg": 9, "ratio": 1e300})"), "not_finite ratio");
}

TEST(FinenessByDensityVerb, DefaultsAndRefusals) {
  const Json out = answer("fineness_by_density", R"({"air_g": 1, "immersed_g": 0.933, "balance_step_g": 0.0001})");
  const double density = 0.9982 / 0.067;
  EXPECT_NEAR(out["density"].get<double>(), density, 1e-9);
  EXPECT_NEAR(out["fineness_permil"].get<double>(), 1000 * 19.3 * (density - 10.5) / (density * 8.8), 1e-6);
  EXPECT_GT(out["u_fineness_permil"].get<double>(), 0);
  EXPECT_FALSE(answer("fineness_by_density", R"({"air_g": 1, "immersed_g": 0.933})").contains("u_fineness_permil"));
  EXPECT_EQ(refusal("fineness_by_density", R"({"air_g": 1, "immersed_g": 0.933, "balance_step_g": 0.004})"),
            "too_small immersed_g");
  EXPECT_EQ(refusal("fineness_by_density", R"({"air_g": 1, "immersed_g": 0.96})"), "out_of_range immersed_g");
  EXPECT_EQ(refusal("fineness_by_density", R"({"air_g": 1, "immersed_g": 0.85})"), "out_of_range immersed_g");
  EXPECT_EQ(refusal("fineness_by_density", R"({"air_g": 1, "immersed_g": 1.2})"), "inconsistent immersed_g");
  EXPECT_EQ(refusal("fineness_by_density", R"({"air_g": 1, "immersed_g": 0.933, "gold_density": 10})"),
            "inconsistent gold_density");
}

}  // namespace
}  // namespace prillbook::batch
