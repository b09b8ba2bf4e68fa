// SPDX-License-Identifier: GPL-3.0-or-later
// The charges of one control material in the order in which they were made up, against its value.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/controls/materials.h"
#include "core/quality/bias.h"
#include "core/results/test_reader.h"

namespace prillbook::results {

enum class SpreadOrigin { stated, own_results, setting };

// What a chart is drawn with, in g/t.
struct ChartLimits {
  double target = 0, sd = 0;
  bool certified = false;  // else the robust mean of the lab's own results
  SpreadOrigin origin = SpreadOrigin::stated;
};

struct ChartSignal {
  std::size_t point = 0;  // place in `points`
  std::string rule;       // "1-3s", "Nelson 3"
  std::string words;      // "two running beyond the same 2 s"
  bool rejects = false;   // else a warning
};

struct ControlChart {
  controls::Material material;
  std::vector<SingleTest> points;     // with a gold figure, oldest first
  std::optional<ChartLimits> limits;  // absent: neither a value nor eight results
  std::vector<ChartSignal> alarms;
};

inline constexpr std::size_t fewest_own_results = 8;  // for a mean and spread of the lab's own; common practice, no source
inline constexpr std::int64_t most_charted = 20;      // what the rules look back on

// The newest `most` charges up to `until` (none: all), spoiled and excluded ones left out. Errors: not_found, damaged.
Result<ControlChart> control_chart(TestReader& reader, const controls::Material& material, ChargeId until = {},
                                   std::int64_t most = most_charted);

// The mean of all points against the certified value.
struct MetalBias {
  std::size_t n = 0;
  double mean = 0, certified = 0;  // g/t
  std::optional<double> u_mean;    // s/√n, or that of a single result
  std::optional<double> u_certified;
  Bias bias;
};
// nullopt without a certified value or a figure.
std::optional<MetalBias> gold_bias(const ControlChart& chart);
std::optional<MetalBias> silver_bias(const ControlChart& chart);

}  // namespace prillbook::results
