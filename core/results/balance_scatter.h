// SPDX-License-Identifier: GPL-3.0-or-later
// How a balance scatters, from what a sample's record knows of it.
#pragma once

#include <optional>

#include "core/results/sample_record.h"

namespace prillbook::results {

// Standard deviation of one weighing: what the check weighings of the balance show, else what was said of it; nullopt where
// neither is known, or no balance is named.
std::optional<Mass> repeat_sd(const SampleRecord& record, BalanceId balance);

}  // namespace prillbook::results
