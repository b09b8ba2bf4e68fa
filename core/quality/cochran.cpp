// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/quality/cochran.h"

#include <boost/math/distributions/fisher_f.hpp>

namespace prillbook {

double cochran_critical(std::size_t sets, std::size_t repeats, double alpha) {
  const auto p = static_cast<double>(sets);
  const auto freedom = static_cast<double>(repeats - 1);
  const boost::math::fisher_f law(freedom, (p - 1) * freedom);
  return 1 / (1 + (p - 1) / quantile(complement(law, alpha / p)));
}

}  // namespace prillbook
