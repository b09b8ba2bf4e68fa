// SPDX-License-Identifier: GPL-3.0-or-later
// Is one spread among several too large to belong with them?
#pragma once

#include <cstddef>

namespace prillbook {

// Critical share of the largest variance in the sum of `sets` variances, each of `repeats` values; one-sided.
// 1/(1 + (p - 1)/F), F the upper alpha/p quantile with n - 1 and (p - 1)(n - 1) degrees of freedom.
// Source: Cochran's test of ISO 5725-2 (from memory). Domain: sets >= 2, repeats >= 2, 0 < alpha < 1.
double cochran_critical(std::size_t sets, std::size_t repeats, double alpha);

}  // namespace prillbook
