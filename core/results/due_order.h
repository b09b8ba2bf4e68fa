// SPDX-License-Identifier: GPL-3.0-or-later
// The crushing order with the days on which samples are due.
#pragma once

#include "core/results/machine_risk.h"

namespace prillbook::results {

// A sample due by now or within these days goes first. Common practice, no source.
inline constexpr int urgent_days = 2;

// propose_order() with the due dates of the samples. Errors as there; damaged where a date can't be read.
Result<ProposedOrder> propose_order_by_due(store::Connection& connection, MachineId machine, const Instant& now);

}  // namespace prillbook::results
