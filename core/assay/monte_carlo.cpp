// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/assay/monte_carlo.h"

#include <algorithm>
#include <cmath>

namespace prillbook {

PartSampler::PartSampler(const Contribution& part)
    : shape_(part.rectangle && part.high > part.low ? Shape::rectangle
             : std::isfinite(part.dof)              ? Shape::student
                                                    : Shape::normal),
      u_(part.rectangle && shape_ != Shape::rectangle ? 0 : part.u),
      student_(std::isfinite(part.dof) ? std::max(1.0, part.dof) : 1.0),
      even_(shape_ == Shape::rectangle ? part.low : 0.0, shape_ == Shape::rectangle ? part.high : 1.0) {}

Result<void> check_draws(const DrawOptions& options) {
  if (options.draws < 1000 || options.draws > 100'000'000)
    return refusal(ErrorCode::out_of_range, "draws", "from 1000 to 100 000 000 draws");
  return {};
}

Drawn drawn_of(std::vector<double>& values) {
  Drawn drawn;
  const std::size_t all = values.size();
  double sum = 0;
  std::size_t finite = 0;
  for (double& value : values) {
    if (!std::isfinite(value)) {
      value = std::numeric_limits<double>::infinity();
      continue;
    }
    sum += value;
    ++finite;
  }
  if (finite == 0) return drawn;
  drawn.mean = sum / double(finite);
  double squares = 0;
  for (const double value : values)
    if (std::isfinite(value)) squares += (value - drawn.mean) * (value - drawn.mean);
  drawn.sd = finite > 1 ? std::sqrt(squares / double(finite - 1)) : 0;
  // The lower end first: what it leaves above is searched for the others.
  auto from = values.begin();
  const auto quantile = [&](double p) -> std::optional<double> {
    const auto at = values.begin() + std::ptrdiff_t(std::min(all - 1, std::size_t(p * double(all))));
    std::nth_element(from, at, values.end());
    from = at;
    return std::isfinite(*at) ? std::optional(*at) : std::nullopt;
  };
  drawn.lo = quantile(0.025);
  drawn.median = quantile(0.5);
  drawn.hi = quantile(0.975);
  return drawn;
}

std::optional<Agreement> agreement(double u, std::optional<double> lo, std::optional<double> hi, const Drawn& drawn) {
  if (!lo || !hi || !drawn.lo || !drawn.hi || !(u > 0) || !std::isfinite(u)) return std::nullopt;
  constexpr int figures = 2;
  const int last_place = int(std::floor(std::log10(u))) - (figures - 1);
  return Agreement{std::abs(*lo - *drawn.lo), std::abs(*hi - *drawn.hi), 0.5 * std::pow(10, last_place)};
}

}  // namespace prillbook
