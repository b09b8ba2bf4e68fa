// SPDX-License-Identifier: GPL-3.0-or-later
#include <gmock/gmock.h>

#include "tests/batch/support.h"

namespace prillbook::batch {
namespace {

using testing::ElementsAre;

TEST(CalcCharge, KeysOfTheContractWithFlour) {
  const Json output = done("charge", R"({"ore_g": 100, "ore_kind": "siliceous", "button_target_g": 33})");
  EXPECT_THAT(keys(output), ElementsAre("litharge_g", "soda_ash_g", "borax_glass_g", "silica_g", "flour_g", "button_expected_g",
                                        "button_theory_g", "silicate_degree", "warnings"));
  EXPECT_EQ(output["warnings"], Json::array());
}

TEST(CalcCharge, KeysOfTheContractWithNitre) {
  const Json output = done("charge", R"({"ore_g": 20, "reducing_power_g_per_g": 5, "button_target_g": 30, "silica_pct": 40})");
  EXPECT_TRUE(output.contains("nitre_g"));
  EXPECT_FALSE(output.contains("flour_g"));
}

TEST(CalcCharge, GivenAmountsAreKept) {
  const Json output = done("charge", R"({"ore_g": 50, "ore_kind": "siliceous", "button_target_g": 30, "litharge_g": 90,
                                         "soda_ash_g": 70, "flour_power": 10})");
  EXPECT_EQ(output["litharge_g"], 90);
  EXPECT_EQ(output["soda_ash_g"], 70);
  EXPECT_DOUBLE_EQ(output["flour_g"].get<double>(), 3);
}

TEST(CalcCharge, NitrePowerOfTheLab) {
  const Json output = done("charge", R"({"ore_g": 20, "ore_kind": "sulphide", "button_target_g": 30, "nitre_power": 5,
                                         "sulphides": [{"mineral": "pyrite", "pct": 50}]})");
  EXPECT_DOUBLE_EQ(output["nitre_g"].get<double>(), 16);
  EXPECT_THAT(output["warnings"], ElementsAre("composition_assumed"));
}

TEST(CalcCharge, Refusals) {
  EXPECT_EQ(refusal("charge", R"({"ore_kind": "siliceous", "button_target_g": 33})"), "missing_key ore_g");
  EXPECT_EQ(refusal("charge", R"({"ore_g": 20, "ore_kind": "siliceous"})"), "missing_key button_target_g");
  EXPECT_EQ(refusal("charge", R"({"ore_g": 20, "button_target_g": 33})"), "missing_key ore_kind");
  EXPECT_EQ(refusal("charge", R"({"ore_g": 20, "ore_kind": "sulphide", "button_target_g": 33})"),
            "missing_key reducing_power_g_per_g");
  EXPECT_EQ(refusal("charge", R"({"ore_g": 20, "ore_kind": "rich", "button_target_g": 33})"), "out_of_range ore_kind");
  EXPECT_EQ(refusal("charge", R"({"ore_g": 20, "ore_kind": "mixed", "button_target_g": 33, "silica_pct": 101})"),
            "out_of_range silica_pct");
  EXPECT_EQ(refusal("charge",
                    R"({"ore_g": 20, "ore_kind": "mixed", "button_target_g": 33, "sulphides": [{"mineral": "gold", "pct": 1}]})"),
            "out_of_range sulphides[0].mineral");
  EXPECT_EQ(
      refusal("charge", R"({"ore_g": 20, "ore_kind": "mixed", "button_target_g": 33, "sulphides": [{"mineral": "pyrite"}]})"),
      "missing_key sulphides[0].pct");
  EXPECT_EQ(refusal("charge", R"({"ore_g": 20, "ore_kind": "mixed", "button_target_g": 33, "silica_pct": 60,
                                  "sulphides": [{"mineral": "pyrite", "pct": 50}]})"),
            "inconsistent sulphides");
  EXPECT_EQ(refusal("charge", R"({"ore_g": 20, "ore_kind": "mixed", "button_target_g": 33, "charcoal_g": 1})"),
            "unknown_key charcoal_g");
}

}  // namespace
}  // namespace prillbook::batch
