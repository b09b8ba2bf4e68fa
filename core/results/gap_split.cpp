// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/results/gap_split.h"

namespace prillbook::results {

std::optional<GapSplit> gap_split(const SampleResult& result) {
  if (!result.comparison || !result.leading_pan || *result.leading_pan >= result.pan_accounts.size()) return std::nullopt;
  const TestResult& pan = result.pan[*result.leading_pan];
  const PanAccount& account = result.pan_accounts[*result.leading_pan];
  const Mass portion = pan.grade->dry_portion;
  if (!(portion > Mass())) return std::nullopt;
  GapSplit split;
  split.pan = pan.grade->gold->value;
  split.fire = result.fire.gold.mean->value;
  split.unexplained = split.fire - split.pan;
  const auto take = [&](const std::optional<GoldMass>& found, std::optional<Grade>& part) {
    if (!found) return;
    part = grade(found->value, portion);
    split.unexplained -= *part;
  };
  take(account.in_remainder, split.remainder);
  take(account.in_tail, split.tail);
  return split;
}

}  // namespace prillbook::results
