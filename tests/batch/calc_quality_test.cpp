// SPDX-License-Identifier: GPL-3.0-or-later
// The verbs pairs, control and robust.
#include <gmock/gmock.h>

#include <cmath>

#include "tests/batch/support.h"

namespace prillbook::batch {
namespace {

using testing::ElementsAre;

TEST(CalcPairs, KeysOfTheContract) {
  const Json output = done("pairs", R"({"pairs": [[4, 6], [10, 10], [8, 12]]})");
  EXPECT_THAT(keys(output), ElementsAre("n", "cv_average_pct", "half_ard_median_pct", "repeat_sd"));
  EXPECT_EQ(output["n"], 3);
  EXPECT_NEAR(output["half_ard_median_pct"].get<double>(), 20, 1e-12);
  EXPECT_NEAR(output["cv_average_pct"].get<double>(), 100 * std::sqrt((0.08 + 0 + 0.08) / 3), 1e-9)
      << "root mean square, not mean";
}

TEST(CalcPairs, Refusals) {
  EXPECT_EQ(refusal("pairs", R"({})"), "missing_key pairs");
  EXPECT_EQ(refusal("pairs", R"({"pairs": []})"), "too_small pairs");
  EXPECT_EQ(refusal("pairs", R"({"pairs": 4})"), "wrong_type pairs");
  EXPECT_EQ(refusal("pairs", R"({"pairs": [[1, 2], [1]]})"), "wrong_type pairs[1]");
  EXPECT_EQ(refusal("pairs", R"({"pairs": [[1, 2], [1, "2"]]})"), "wrong_type pairs[1][1]");
  EXPECT_EQ(refusal("pairs", R"({"pairs": [[1, 2], [-1, 2]]})"), "out_of_range pairs[1][0]");
  EXPECT_EQ(refusal("pairs", R"({"pairs": [[0, 0]]})"), "out_of_range pairs[0]");
  EXPECT_EQ(refusal("pairs", R"({"pairs": [[1e308, 0], [1e308, 1]]})"), "not_finite repeat_sd");
}

TEST(CalcControl, SignalsOfTheContract) {
  const Json output = done("control", R"({"values": [10, 13.5, 12.2, 12.4], "target": 10, "sd": 1})");
  EXPECT_THAT(keys(output), ElementsAre("signals"));
  EXPECT_EQ(output["signals"],
            Json::parse(R"([{"index": 1, "rule": "1-3s"}, {"index": 2, "rule": "1-2s"}, {"index": 2, "rule": "2-2s"},
                                               {"index": 3, "rule": "1-2s"}, {"index": 3, "rule": "2-2s"}])"));
  EXPECT_EQ(done("control", R"({"values": [10], "target": 10, "sd": 1})")["signals"], Json::array());
}

TEST(CalcControl, Refusals) {
  EXPECT_EQ(refusal("control", R"({"values": [10], "target": 10, "sd": 0})"), "out_of_range sd");
  EXPECT_EQ(refusal("control", R"({"values": [], "target": 10, "sd": 1})"), "too_small values");
  EXPECT_EQ(refusal("control", R"({"values": [1, null], "target": 10, "sd": 1})"), "wrong_type values[1]");
}

TEST(CalcRobust, KeysOfTheContract) {
  const Json output = done("robust", R"({"values": [1, 2, 3, 4, 50], "k": 1.5})");
  EXPECT_THAT(keys(output), ElementsAre("median", "mad_sd", "huber_mean", "huber_sd", "grubbs_g", "grubbs_critical"));
  EXPECT_FALSE(done("robust", R"({"values": [1, 1, 1]})").contains("grubbs_g"));
}

TEST(CalcRobust, Refusals) {
  EXPECT_EQ(refusal("robust", R"({"values": [1, 2]})"), "too_small values");
  EXPECT_EQ(refusal("robust", R"({"values": [1, 2, 3], "k": 0})"), "out_of_range k");
  EXPECT_EQ(refusal("robust", R"({"values": [1, 2, 3], "sigma": 0})"), "unknown_key sigma");
  EXPECT_EQ(refusal("robust", R"({"values": [1e308, -1e308, 1e308]})"), "not_finite values");
}

}  // namespace
}  // namespace prillbook::batch
