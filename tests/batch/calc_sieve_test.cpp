// SPDX-License-Identifier: GPL-3.0-or-later
#include <gmock/gmock.h>

#include "tests/batch/support.h"

namespace prillbook::batch {
namespace {

using testing::ElementsAre;

constexpr auto stack = R"({"portion_g": 44.6, "pan_g": 4.87, "series": "astm_e11", "max_loss_pct": 0.3, "step_g": 0.01, "cuts": [
  {"opening_um": 45, "retained_g": 11.56}, {"opening_um": 250, "retained_g": 0.02}, {"opening_um": 180, "retained_g": 1.32},
  {"opening_um": 125, "retained_g": 4.23}, {"opening_um": 90, "retained_g": 9.44}, {"opening_um": 63, "retained_g": 13.10}]})";

TEST(CalcSieve, KeysOfTheContract) {
  const Json output = done("sieve", stack);
  EXPECT_THAT(keys(output), ElementsAre("total_g", "loss_pct", "pan_pct", "rows", "p80_um", "p50_um", "convention", "p80_status",
                                        "gaudin_schuhmann", "rosin_rammler", "warnings"));
  EXPECT_THAT(keys(output["rows"][0]), ElementsAre("opening_um", "retained_pct", "cumulative_retained_pct", "passing_pct"));
  EXPECT_THAT(keys(output["gaudin_schuhmann"]), ElementsAre("m", "k_um", "r2"));
  EXPECT_THAT(keys(output["rosin_rammler"]), ElementsAre("n", "size_um", "r2"));
  EXPECT_EQ(output["convention"], "log_size_linear_passing");
  EXPECT_EQ(output["p80_status"], "inside");
  EXPECT_EQ(output["rows"].size(), 6u);
  EXPECT_EQ(output["rows"][0]["opening_um"], 250);
  EXPECT_EQ(output["warnings"], Json::array());
}

TEST(CalcSieve, SizeIsAbsentOutsideTheSieves) {
  const Json above = done("sieve", R"({"portion_g": 10, "cuts": [{"opening_um": 100, "retained_g": 6}], "pan_g": 4})");
  EXPECT_EQ(above["p80_status"], "above_top_sieve");
  EXPECT_FALSE(above.contains("p80_um"));
  EXPECT_FALSE(above.contains("rosin_rammler")) << "one point makes no line";
  const Json below = done("sieve", R"({"portion_g": 10, "cuts": [{"opening_um": 100, "retained_g": 1}], "pan_g": 9})");
  EXPECT_EQ(below["p80_status"], "below_bottom_sieve");
  EXPECT_FALSE(below.contains("p80_um"));
}

TEST(CalcSieve, Warnings) {
  const Json output = done("sieve", R"({"portion_g": 10.5, "series": "tyler", "pan_g": 5,
                                        "cuts": [{"opening_um": 331, "retained_g": 1}, {"opening_um": 100, "retained_g": 4}]})");
  EXPECT_THAT(output["warnings"], ElementsAre("loss_above_limit", "wide_bracket", "opening_not_in_series"));
}

TEST(CalcSieve, Refusals) {
  EXPECT_EQ(refusal("sieve", R"({"portion_g": 10, "cuts": [{"opening_um": 1, "retained_g": 1}]})"), "missing_key pan_g");
  EXPECT_EQ(refusal("sieve", R"({"portion_g": 10, "cuts": [], "pan_g": 10})"), "too_small cuts");
  EXPECT_EQ(refusal("sieve", R"({"portion_g": 10, "cuts": 3, "pan_g": 10})"), "wrong_type cuts");
  EXPECT_EQ(refusal("sieve", R"({"portion_g": 10, "cuts": [{"opening_um": 9, "retained_g": 1}, {"opening_um": 8}], "pan_g": 9})"),
            "missing_key cuts[1].retained_g");
  EXPECT_EQ(refusal("sieve", R"({"portion_g": 10, "cuts": [{"opening_um": 9, "retained_g": -1}], "pan_g": 9})"),
            "out_of_range cuts[0].retained_g");
  EXPECT_EQ(refusal("sieve", R"({"portion_g": 10, "cuts": [{"opening_um": 9, "retained_g": 1, "note": 1}], "pan_g": 9})"),
            "unknown_key cuts[0].note");
  EXPECT_EQ(
      refusal("sieve", R"({"portion_g": 10, "cuts": [{"opening_um": 9, "retained_g": 1}, {"opening_um": 9, "retained_g": 2}],
                                 "pan_g": 7})"),
      "conflict cuts[1].opening_um");
  EXPECT_EQ(refusal("sieve", R"({"portion_g": 10, "cuts": [{"opening_um": 9, "retained_g": 1}], "pan_g": 9.21})"),
            "inconsistent portion_g");
  EXPECT_EQ(refusal("sieve", R"({"portion_g": 10, "cuts": [{"opening_um": 9, "retained_g": 0}], "pan_g": 0})"),
            "inconsistent cuts");
  EXPECT_EQ(refusal("sieve", R"({"portion_g": 10, "cuts": [{"opening_um": 9, "retained_g": 1}], "pan_g": 9, "series": "mesh"})"),
            "out_of_range series");
  EXPECT_EQ(refusal("sieve", R"({"portion_g": 1e308, "cuts": [{"opening_um": 9, "retained_g": 1e308}], "pan_g": 1e308})"),
            "not_finite cuts");
}

}  // namespace
}  // namespace prillbook::batch
