// SPDX-License-Identifier: GPL-3.0-or-later
// Lots that are milled for their owner, as they were written down. Their gold: lot_account.h.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "core/base/id.h"
#include "core/history/journal.h"
#include "core/readings/entry.h"

namespace prillbook::milling {

struct MillingLot {
  MillingLotId id;
  SampleId sample;  // stands for the head
  std::optional<Instant> milled_at;
  PersonId milled_by;
  readings::Figure mass, moisture, head, concentrate, concentrate_gold, sponge, bullion, bullion_fineness, tail_gold, owner_share;
  std::optional<std::string> agreement, remarks;
};

// Errors: not_found; already_exists where the sample stands for a lot already.
Result<MillingLotId> begin_lot(history::ChangeSet& set, SampleId sample);
Result<MillingLotId> begin_lot(history::Journal& journal, SampleId sample);

// nullopt where the sample stands for none; a notebook of an older schema has none.
Result<std::optional<MillingLot>> lot_of(store::Connection& connection, SampleId sample);

}  // namespace prillbook::milling
