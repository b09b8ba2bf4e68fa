// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/results/due_order.h"

namespace prillbook::results {

Result<ProposedOrder> propose_order_by_due(store::Connection& connection, MachineId machine, const Instant& now) {
  constexpr std::int64_t ms_per_day = 24 * 60 * 60 * std::int64_t{1000};
  return propose_order(connection, machine, now, Instant{now.utc_ms + urgent_days * ms_per_day, now.offset_minutes});
}

}  // namespace prillbook::results
