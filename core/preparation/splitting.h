// SPDX-License-Identifier: GPL-3.0-or-later
// How a sample is split, what the way of splitting adds to the error, and what a riffle must be like.
#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "core/base/result.h"
#include "core/preparation/gy.h"

namespace prillbook {

enum class SplitMethod { riffle, cone_and_quarter, rotary, scoop };
std::optional<SplitMethod> find_split_method(std::string_view name);

// Standard deviation of one split in per cent of what was split, on 60:40 coarse and fine sand. Source: Allen and Khan
// 1970; order and design read in a handbook, the figures from memory: cone and quarter 6.81, scoop 5.14, chute riffle
// 1.01, spinning riffle 0.125. Gold behaves worse than sand: a lower bound.
double method_sd_pct(SplitMethod method);

// Width of a chute for rock of this top size, at least: 2.5 times the largest piece. Source: as riffle_faults.
Opening least_chute_width(Opening top_size);

struct Riffle {
  int chutes = 0;
  Opening width;
};
// Faults of a riffle for rock of this top size, in words; none: it fits. Source: encyclopaedia, "riffle splitter": an
// even number of equal chutes, each at least 2.5 times as wide as the largest piece.
std::vector<std::string_view> riffle_faults(const Riffle& riffle, Opening top_size);

// One stage on the way to a portion: so much was taken of so much at this top size.
struct SplitStage {
  Opening top_size;
  Mass lot, taken;  // taken <= lot
  std::optional<SplitMethod> method;
};

struct StageError {
  double fundamental_pct = 0;  // Gy
  double method_pct = 0;       // of the way it was split; 0 where it is not known
};
struct TotalError {
  std::vector<StageError> stages;
  double fundamental_pct = 0;  // of all stages: variances add
  double total_pct = 0;        // with the ways of splitting
};

// `common` gives liberation, grade, exponent and factors; its top size and masses are not used.
// Errors: as gy_error.
Result<TotalError> error_of_stages(const std::vector<SplitStage>& stages, GyInput common);

}  // namespace prillbook
