// SPDX-License-Identifier: GPL-3.0-or-later
// Mean and spread that a few bad values do not carry away, and the test for one of them.
#pragma once

#include <optional>
#include <vector>

#include "core/base/result.h"

namespace prillbook {

struct HuberEstimate {
  double mean = 0;
  double sd = 0;  // 0 where more values are equal than the estimate can bear
};

struct RobustResult {
  double median = 0;
  double mad_sd = 0;  // 1.4826 × median absolute deviation from the median
  HuberEstimate huber;
  std::optional<double> grubbs_g;  // largest |value - mean|/s, s with n - 1; absent where all values are equal
  double grubbs_critical = 0;      // two-sided 5 %
};

inline constexpr double huber_k = 1.5;

// Errors: too_small (fewer than three values; field values), out_of_range (k not within 0.1 to 100; field k), not_finite.
Result<RobustResult> robust_statistics(const std::vector<double>& values, double k = huber_k);

// Huber's proposal 2: Σψ((x - m)/s) = 0 and Σψ² = (n - 1) β(k) together, ψ clipped at ±k, β(k) the mean of ψ² under the
// normal law, exact. Solved to 1e-9 of the scale. Source: Huber, Robust Statistics (1981), 6.4 (from memory); the n - 1
// as in ISO 5725-5 Algorithm A, which is the same with β rounded. Domain: at least two values; k as above.
HuberEstimate huber_proposal_2(const std::vector<double>& values, double k = huber_k);
double huber_beta(double k);  // P + k²(1 - P) - 2kφ(k), P = P(|z| <= k)

// (n - 1)/√n · √(t²/(n - 2 + t²)), t the upper alpha/(2n) (two-sided) or alpha/n quantile with n - 2 degrees of freedom.
// Source: Grubbs 1969 as in the NIST handbook 1.3.5.17.1 (from memory). Domain: n >= 3, 0 < alpha < 1.
double grubbs_critical(std::size_t n, double alpha, bool two_sided);

}  // namespace prillbook
