// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/preparation/splitting.h"

#include <cmath>

namespace prillbook {

std::optional<SplitMethod> find_split_method(std::string_view name) {
  if (name == "riffle") return SplitMethod::riffle;
  if (name == "cone_and_quarter") return SplitMethod::cone_and_quarter;
  if (name == "rotary") return SplitMethod::rotary;
  if (name == "scoop") return SplitMethod::scoop;
  return std::nullopt;
}

double method_sd_pct(SplitMethod method) {
  switch (method) {
    case SplitMethod::riffle: return 1.01;
    case SplitMethod::cone_and_quarter: return 6.81;
    case SplitMethod::rotary: return 0.125;
    case SplitMethod::scoop: return 5.14;
  }
  return 0;
}

Opening least_chute_width(Opening top_size) { return top_size * 2.5; }

std::vector<std::string_view> riffle_faults(const Riffle& riffle, Opening top_size) {
  std::vector<std::string_view> faults;
  if (riffle.chutes < 2 || riffle.chutes % 2 != 0) faults.push_back("the chutes are not even in number");
  if (riffle.width < least_chute_width(top_size)) faults.push_back("the chutes are narrower than 2.5 times the largest piece");
  return faults;
}

Result<TotalError> error_of_stages(const std::vector<SplitStage>& stages, GyInput common) {
  TotalError total;
  double fundamental = 0, method = 0;
  for (const SplitStage& stage : stages) {
    common.top_size = stage.top_size;
    common.mass = stage.taken;
    common.lot = stage.lot;
    common.target.reset();
    PRILLBOOK_ASSIGN(const GyResult gy, gy_error(common));
    const StageError error{gy.relative_sd_pct, stage.method ? method_sd_pct(*stage.method) : 0};
    fundamental += error.fundamental_pct * error.fundamental_pct;
    method += error.method_pct * error.method_pct;
    total.stages.push_back(error);
  }
  total.fundamental_pct = std::sqrt(fundamental);
  total.total_pct = std::sqrt(fundamental + method);
  if (!std::isfinite(total.total_pct)) return refusal(ErrorCode::not_finite, "stages", "the error can't be expressed");
  return total;
}

}  // namespace prillbook
