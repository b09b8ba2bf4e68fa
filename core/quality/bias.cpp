// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/quality/bias.h"

#include <cmath>

namespace prillbook {
namespace {

bool bad_uncertainty(const std::optional<double>& u) { return u && (!(*u >= 0) || !std::isfinite(*u)); }

}  // namespace

Result<Bias> bias_against_certified(const ReferenceComparison& comparison) {
  const auto& [measured, certified, u_measured, u_certified] = comparison;
  if (!std::isfinite(measured)) return Error{ErrorCode::not_finite, "measured", "the result is no number", {}};
  if (!std::isfinite(certified)) return Error{ErrorCode::not_finite, "certified", "the certified value is no number", {}};
  if (measured < 0) return Error{ErrorCode::out_of_range, "measured", "the result can't be below 0", {}};
  if (certified <= 0) return Error{ErrorCode::out_of_range, "certified", "the certified value must be above 0", {}};
  if (bad_uncertainty(u_measured)) return Error{ErrorCode::out_of_range, "u_measured", "the uncertainty can't be below 0", {}};
  if (bad_uncertainty(u_certified)) return Error{ErrorCode::out_of_range, "u_certified", "the uncertainty can't be below 0", {}};

  Bias bias;
  bias.difference = measured - certified;
  bias.relative_pct = 100 * (bias.difference / certified);
  if (!std::isfinite(bias.relative_pct))
    return Error{ErrorCode::out_of_range, "certified", "the certified value is too small", {}};
  if (!u_measured || !u_certified) return bias;
  const double zeta = bias.difference / std::hypot(*u_measured, *u_certified);
  if (!std::isfinite(zeta)) return bias;
  bias.zeta = zeta;
  bias.en = zeta / 2;
  return bias;
}

}  // namespace prillbook
