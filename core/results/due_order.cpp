// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/results/due_order.h"

#include "core/custody/custody.h"

namespace prillbook::results {

Result<ProposedOrder> propose_order_by_due(store::Connection& connection, MachineId machine, const Instant& now) {
  constexpr std::int64_t ms_per_day = 24 * 60 * 60 * std::int64_t{1000};
  std::optional<Error> failed;
  const auto due = [&](SampleId id) -> std::optional<std::int64_t> {
    const auto sample = custody::sample(connection, id);
    if (!sample) {
      failed = sample.error();
      return std::nullopt;
    }
    return sample->due ? std::optional(sample->due->utc_ms) : std::nullopt;
  };
  auto order = propose_order(connection, machine, now, due, now.utc_ms + urgent_days * ms_per_day);
  if (failed) return *failed;
  return order;
}

}  // namespace prillbook::results
