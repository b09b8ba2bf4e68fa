// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/results/balance_scatter.h"

#include <algorithm>

namespace prillbook::results {

std::optional<Mass> repeat_sd(const SampleRecord& record, BalanceId balance) {
  if (!balance) return std::nullopt;
  if (const auto pooled = weighing::pooled_of_checks(record.checks, balance)) return pooled->sd;
  const auto found = std::find_if(record.balances.begin(), record.balances.end(), [&](const auto& b) { return b.id == balance; });
  if (found == record.balances.end() || !found->repeatability) return std::nullopt;
  return found->repeatability->mass();
}

}  // namespace prillbook::results
